"""Batteries: voltages and resistances by their cells, milliohms typed as ohms, a wrong capacity."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from catalogue.doubts.doubt import Doubt, amps, ohms, volts
from catalogue.doubts.family import table
from catalogue.generic.tables import Row
from catalogue.quantities import show

#: Capacities [A·s] of one battery that are not doubted.
_CAPACITIES: Final = (1.0 * 3600, 5000.0 * 3600)
#: Share of the range of cells by which a battery may leave it: links, terminals, cold.
_UNDER, _OVER = 0.5, 2.0
#: Times by which a declared short-circuit current may differ from emf over resistance.
_DECLARED: Final = 3.0


def battery_doubts(part: Any) -> Iterator[Doubt]:
    """What is hard to believe of a battery."""
    capacity = part.capacity
    if capacity is not None and not _CAPACITIES[0] <= capacity <= _CAPACITIES[1]:
        expected = f"{show(_CAPACITIES[0], 'A·s')} to {show(_CAPACITIES[1], 'A·s')}"
        source = "one battery as it is sold; a wide bound"
        yield Doubt(part.id, "capacity", show(capacity, "A·s"), expected, source)
    row = next((row for row in table("cell_ranges") if row["chemistry"] == part.chemistry), None)
    if row is not None and (cells := _cells(part, row)):
        yield from _voltages(part, row, cells)
        if part.resistance is not None and capacity is not None:
            yield from _resistance(part, row, cells)
    if part.short_circuit_current is not None and part.resistance is not None and part.emf:
        yield from _declared(part)


def _cells(part: Any, row: Row) -> int:
    """Cells in series: as stated, else by the nominal voltage; 0 if neither says."""
    if part.cells is not None:
        return int(part.cells)
    if part.nominal_voltage is None:
        return 0
    middle = {"lfp": 3.2, "nmc": 3.65, "lto": 2.3, "nicd": 1.2, "sodium-ion": 3.1}
    return round(float(part.nominal_voltage) / middle.get(row["chemistry"], 2.0))


def _voltages(part: Any, row: Row, cells: int) -> Iterator[Doubt]:
    stated = [("nominal_voltage", part.nominal_voltage, "emf")]
    if part.emf is not None:
        stated += [("emf.min", part.emf.min, "emf"), ("emf.max", part.emf.max, "emf")]
    stated.append(("charge_voltage", part.charge_voltage, "charge"))
    for path, value, name in stated:
        if value is None:
            continue
        low, high = (float(row[f"{name}_{end}_V"]) * cells for end in ("low", "high"))
        if not low * 0.999 <= value <= high * 1.001:
            found = f"{volts(value)} with {cells} cells of {part.chemistry}"
            yield Doubt(part.id, path, found, f"{volts(low)} to {volts(high)}", row["source"])


def _resistance(part: Any, row: Row, cells: int) -> Iterator[Doubt]:
    """The terminals' resistance against that of its cells, by their capacity."""
    hours = part.capacity / 3600
    low, high = (
        float(row[f"resistance_{end}_mohm_Ah"]) * 1e-3 * cells / hours for end in ("low", "high")
    )
    band = part.resistance
    if band.max < _UNDER * low or band.min > _OVER * high:
        found = f"{ohms(band.min)} to {ohms(band.max)} with {hours:.4g} Ah"
        expected = f"{ohms(low)} to {ohms(high)}"
        yield Doubt(part.id, "resistance", found, expected, row["source"])


def _declared(part: Any) -> Iterator[Doubt]:
    """The maker's short-circuit current against what emf and resistance give."""
    if part.resistance.min <= 0:
        return
    least, most = part.emf.min / part.resistance.max, part.emf.max / part.resistance.min
    current = part.short_circuit_current
    if not least / _DECLARED <= current <= most * _DECLARED:
        expected = f"{amps(least)} to {amps(most)}"
        source = "its own emf over its own resistance"
        yield Doubt(part.id, "short_circuit_current", amps(current), expected, source)
