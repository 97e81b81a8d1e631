"""What feeds and what draws: batteries, current-limited sources, equipment, converters."""

from __future__ import annotations

from catalogue.parts import Battery
from coordination.model import Condition, Converter, Equipment, Source, System
from coordination.named import Named
from coordination.network.graph import Draw, Feed, Injection
from coordination.network.stated import of_file, of_part
from coordination.physics import batteries, loads, sources
from coordination.trace import Derived, Unknown, Value, reckon


def feeds(system: System, condition: Condition, index: dict[str, int]) -> tuple[Feed, ...]:
    """Every battery that is in."""
    return tuple(
        _feed(source, source.part, index[source.name])
        for source in system.sources.values()
        if source.part is not None and source.name not in condition.without
    )


def injections(
    system: System, condition: Condition, index: dict[str, int]
) -> tuple[Injection, ...]:
    """Every current-limited source that is in: chargers, alternators, converters' outputs."""
    found = [
        Injection(
            source,
            index[source.name],
            _limit(source, source.current_limited, "current_limited"),
            _held(source, source.voltage, "voltage"),
        )
        for source in system.sources.values()
        if source.part is None and source.name not in condition.without
    ]
    found += [
        Injection(
            converter,
            index[f"{converter.name}.output"],
            _limit(converter, converter.output_current, "output_current"),
            _held(converter, converter.output_voltage, "output_voltage"),
        )
        for converter in system.converters.values()
        if converter.name not in condition.without
    ]
    return tuple(found)


def draws(system: System, condition: Condition, index: dict[str, int]) -> tuple[Draw, ...]:
    """Every load that is in, with the current it draws in this condition."""
    found: list[Draw] = []
    for equipment in system.equipment.values():
        if equipment.name not in condition.without:
            found.append(
                Draw(
                    equipment,
                    index[equipment.name],
                    _drawn(equipment, equipment_current(equipment), condition),
                )
            )
    for converter in system.converters.values():
        if converter.name not in condition.without:
            found.append(
                Draw(
                    converter,
                    index[f"{converter.name}.input"],
                    _drawn(converter, converter_current(converter), condition),
                )
            )
    return tuple(found)


def equipment_current(equipment: Equipment) -> Value:
    """Design current [A] of a piece of equipment: stated, or from power at its lowest voltage."""
    quantity = f"current of {equipment.name}"
    if equipment.current is not None:
        return of_file(equipment, "current", equipment.current, quantity, "I", "A")
    return reckon(
        loads.equipment_current,
        quantity,
        "I",
        "A",
        "P / η / U",
        of_file(equipment, "power", equipment.power, f"power of {equipment.name}", "P", "W"),
        of_file(equipment, "efficiency", equipment.efficiency, "efficiency", "η", ""),
        of_file(equipment, "min_voltage", equipment.min_voltage, "lowest voltage", "U", "V"),
        source=sources.CONSERVATION,
    )


def converter_current(converter: Converter) -> Value:
    """Largest input current [A] of a converter."""
    return reckon(
        loads.converter_input_current,
        f"input current of {converter.name}",
        "I",
        "A",
        "I_out × U_out / (η × U_in)",
        of_file(
            converter, "output_current", converter.output_current, "output current", "I_out", "A"
        ),
        of_file(
            converter, "output_voltage", converter.output_voltage, "output voltage", "U_out", "V"
        ),
        of_file(converter, "efficiency", converter.efficiency, "efficiency", "η", ""),
        of_file(
            converter,
            "min_input_voltage",
            converter.min_input_voltage,
            "lowest input voltage",
            "U_in",
            "V",
        ),
        source=sources.CONSERVATION,
    )


def _drawn(named: Named, full: Value, condition: Condition) -> Value:
    share = condition.draw.get(named.name)
    if share is None or share == 1.0:
        return full
    quantity = f"current of {named.name} in this condition"
    part = of_file(condition, f"draw.{named.name}", share, "share it draws", "share", "")
    if share == 0.0:
        return Derived(
            quantity, "I", 0.0, "A", source=part.source if isinstance(part, Derived) else None
        )
    return reckon(
        lambda current, fraction: current * fraction, quantity, "I", "A", "I × share", full, part
    )


def _limit(named: Named, value: float | None, field: str) -> Value:
    return of_file(named, field, value, f"limit of {named.name}", "I", "A")


def _held(named: Named, value: float | None, field: str) -> Value:
    return of_file(named, field, value, f"voltage of {named.name}", "U", "V")


def _feed(source: Source, part: Battery, point: int) -> Feed:
    band = part.emf
    quantity = f"open-circuit voltage of {source.name}"
    low = of_part(part, "emf.min", None if band is None else band.min, f"{quantity}, low", "E", "V")
    high = of_part(
        part, "emf.max", None if band is None else band.max, f"{quantity}, full charge", "E", "V"
    )
    return Feed(source, point, low, high, _least(source, part, high), _largest(source, part))


def _least(source: Source, part: Battery, emf: Value) -> Value:
    """Least resistance: stated, or what a declared short-circuit current implies if less."""
    quantity = f"least resistance of {source.name}"
    stated = _positive(part, "min", quantity)
    if part.short_circuit_current is None:
        return stated
    declared = of_part(
        part,
        "short_circuit_current",
        part.short_circuit_current,
        f"declared short-circuit current of {source.name}",
        "I",
        "A",
    )
    implied = reckon(
        batteries.resistance_from_declared,
        quantity,
        "R",
        "Ω",
        "E / I",
        emf,
        declared,
        source=sources.OHM,
    )
    if isinstance(stated, Derived) and isinstance(implied, Derived):
        return stated if stated.value <= implied.value else implied
    return implied if part.resistance is None else stated


def _largest(source: Source, part: Battery) -> Value:
    return _positive(part, "max", f"largest resistance of {source.name}")


def _positive(part: Battery, end: str, quantity: str) -> Value:
    """A stated resistance above zero; a battery without any could not be told from a short."""
    band = part.resistance
    value = None if band is None else band.min if end == "min" else band.max
    if value is not None and not value > 0.0:
        return Unknown(quantity, (f"{part.id}: resistance above zero",))
    if value is not None and "resistance.assumed" in part.written:
        return _assumed(part, end, value, quantity)
    return of_part(part, f"resistance.{end}", value, quantity, "R", "Ω")


def _assumed(part: Battery, end: str, value: float, quantity: str) -> Derived:
    """An end [Ω] of the band that was laid around a single stated resistance."""
    share = batteries.BAND_LOW if end == "min" else batteries.BAND_HIGH
    stated = of_part(part, "resistance", value / share, "its one stated resistance", "R_n", "Ω")
    return Derived(
        f"{quantity}, assumed band {part.written['resistance.assumed']}",
        "R",
        value,
        "Ω",
        f"{share:.2f} × R_n",
        (stated,) if isinstance(stated, Derived) else (),
        sources.BATTERY_BAND,
    )
