"""A switch must carry the load, and a surge of equipment behind it, for as long as they last."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    Source,
    Unknown,
    Value,
    compare,
    derive,
    given,
    rule,
)
from fusewright_fundamentals.stated import stated, written

CARD = Card(
    name="disconnect-rating",
    title="Switch carries its load",
    why="Contacts heat with the square of the current; above its continuous rating a switch loses "
    "its spring force, and each cycle makes it worse. A surge is held against the continuous "
    "rating or a row for at least its time, the rest of the load flowing on. A larger fuse ahead "
    "of the switch is not judged here: it allows an overload but causes none.",
    wrong="A switch bought by its cranking figure; a pack's own contactor that carries the whole "
    "load once its neighbour is out.",
    right="A switch with a higher continuous rating, or a condition in which load is shed.",
    severity="damage",
    source=Source("IEC 60947-3:2020", clause="rated uninterrupted current Iu", read=False),
)


#: A share below this is rounding of the network's solution.
SMALL = 1e-9


@rule(CARD, each="disconnect")
def disconnect_rating(switch: Any, study: Any) -> Iterator[Judgement]:
    """Design current against the continuous rating, then each surge that may flow through it."""
    rated = stated(switch.part, "rated_current", "continuous rating", "I_r", "A")
    load = study.load(switch)
    yield compare(load, at_most=rated)
    for equipment in study.system.equipment.values():
        draws = study.condition.draw.get(equipment.name, 1.0)
        if equipment.surge is None or draws == 0:
            continue
        share = study.share(switch, equipment)
        if isinstance(share, Derived) and share.value < SMALL:
            continue
        peak = _peak(load, equipment, draws, share)
        reason = f"surge of {equipment.name} for {equipment.surge.time:g} s"
        yield compare(peak, at_most=_allowed(switch.part, equipment, peak, rated), reason=reason)


def _peak(load: Value, equipment: Any, draws: float, share: Value) -> Value:
    """Current [A] while one machine surges and the rest draws on.

    I + s (I_p - k I_e): what the machine draws more than before, as the batteries share it.
    """
    if isinstance(load, Unknown):
        return load
    name = equipment.name
    source = Source("system file", clause=f"{name}: surge.current")
    text = equipment.written.get("surge.current", "")
    peak = given(f"surge of {name}", "I_p", equipment.surge.current, "A", source, text)
    part = given(f"part of {name} that draws", "k", draws, "", Source("system file", "draw"))
    own = _own_current(equipment)
    formula = f"{load.symbol} + s × (I_p - k × I_e)"
    return derive(_swap, "load with surge", "I_max", "A", formula, load, share, peak, part, own)


def _swap(load: float, share: float, peak: float, part: float, own: float) -> float:
    return load + share * max(0.0, peak - part * own)


def _own_current(equipment: Any) -> Value:
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


def _allowed(part: Any, equipment: Any, peak: Value, rated: Value) -> Value:
    """The continuous rating if that is enough, else the largest row for at least this time."""
    time = equipment.surge.time
    rows = [
        (row.current, number)
        for number, row in enumerate(part.intermittent if part is not None else ())
        if row.time >= time
    ]
    if isinstance(rated, Unknown) or isinstance(peak, Unknown) or peak.value <= rated.value:
        return rated
    if not rows:
        return Unknown("intermittent rating", (f"{part.id}: intermittent for >= {time:g} s",))
    current, number = max(rows)
    text = part.written.get(f"intermittent.{number}.current", "")
    source = Source("part data", clause=f"{part.id}: intermittent.{number}.current")
    return given("intermittent rating", "I_int", current, "A", source, text)
