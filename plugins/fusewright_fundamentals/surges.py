"""What equipment draws for a moment, and what then flows through something on the way to it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Derived, Source, Unknown, Value, derive, given
from coordination.rules.kit.stated import written

#: A share below this is rounding of the network's solution.
SMALL = 1e-9
#: Fields of equipment that state a current for a time.
FIELDS = ("surge", "start", "stall")


def moments(equipment: Any) -> Iterator[tuple[str, Any]]:
    """Field and row, current [A] and time [s], of every such moment that is stated."""
    for field in FIELDS:
        row = getattr(equipment, field, None)
        if row is not None:
            yield field, row


def draws(equipment: Any, study: Any) -> float:
    """Part [1] of what the equipment draws, in this condition."""
    return float(study.condition.draw.get(equipment.name, 1.0))


def flows_to(share: Value) -> bool:
    """Whether anything of what the equipment draws comes this way, as far as known."""
    return isinstance(share, Unknown) or share.value >= SMALL


def momentary(field: str, equipment: Any) -> Derived:
    """The current [A] of a moment, as the file states it."""
    name, row = equipment.name, getattr(equipment, field)
    source = Source("system file", clause=f"{name}: {field}.current")
    text = equipment.written.get(f"{field}.current", "")
    return given(f"{field} of {name}", "I_p", row.current, "A", source, text)


def momentary_time(field: str, equipment: Any) -> Derived:
    """How long [s] a moment lasts, as the file states it."""
    name, row = equipment.name, getattr(equipment, field)
    source = Source("system file", clause=f"{name}: {field}.time")
    text = equipment.written.get(f"{field}.time", "")
    return given(f"time of the {field} of {name}", "t_p", row.time, "s", source, text)


def through(load: Value, share: Value, field: str, equipment: Any, study: Any) -> Value:
    """Current [A] at a place while one machine has its moment and the rest draws on.

    I + s (I_p - k I_e): what the machine draws more than before, as the batteries share it.
    """
    if isinstance(load, Unknown):
        return load
    name = equipment.name
    source = Source("system file", "draw")
    part = given(f"part of {name} that draws", "k", draws(equipment, study), "", source)
    own = own_current(equipment)
    formula = f"{load.symbol} + s × (I_p - k × I_e)"
    return derive(
        _swap, f"load with {field}", "I_max", "A", formula, load, share,
        momentary(field, equipment), part, own,
    )  # fmt: skip


def _swap(load: float, share: float, peak: float, part: float, own: float) -> float:
    return load + share * max(0.0, peak - part * own)


def own_current(equipment: Any) -> Value:
    """What the equipment draws for long [A]: stated, or P / (η V) at its lowest voltage."""
    name = f"current of {equipment.name}"
    if equipment.current is not None:
        return written(equipment, "current", name, "I_e", "A")
    power = written(equipment, "power", "power", "P", "W")
    efficiency = written(equipment, "efficiency", "efficiency", "η", "")
    voltage = written(equipment, "min_voltage", "lowest voltage", "V_min", "V")
    return derive(
        lambda p, e, v: p / e / v, name, "I_e", "A", "P / (η × V_min)", power, efficiency, voltage
    )
