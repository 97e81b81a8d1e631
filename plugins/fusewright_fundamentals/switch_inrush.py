"""A switch that closes onto a discharged input must make the inrush without welding."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Judgement,
    Source,
    Unknown,
    Value,
    compare,
    derive,
    given,
    rule,
    unproven,
)
from coordination.rules.kit.stated import renamed
from fusewright_fundamentals.amounts import amps
from fusewright_fundamentals.surges import draws, flows_to

CARD = Card(
    name="switch-inrush",
    title="Switch closes onto the equipment unharmed",
    why="A discharged input takes thousands of amperes while the contacts still bounce: a fuse "
    "does not notice, the contacts pit or weld. A switch is taken to make what it is stated to "
    "carry for a time or to break; more than it withstands closed is too much in any case.",
    wrong="A battery's contactor of 500 A that closes onto an inverter of 20 mF: 6 kA.",
    right="A precharge resistor (`inrush: {resistance: ...}` of the equipment), or a switch rated "
    "for it.",
    severity="damage",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="disconnect")
def switch_inrush(switch: Any, study: Any) -> Iterator[Judgement]:
    """Peak inrush of each piece of equipment behind it against what its contacts are rated for."""
    for equipment in study.system.equipment.values():
        inrush = study.inrush(equipment) if draws(equipment, study) else None
        share = study.share(switch, equipment)
        if inrush is None or not flows_to(share):
            continue
        peak = derive(
            lambda current, part: current * part,
            f"peak inrush of {equipment.name} in {switch.name}", "I", "A", "I_peak × s",
            renamed(inrush.peak, "I_peak"), renamed(share, "s"),
        )  # fmt: skip
        yield _judged(switch, peak, equipment)


def _judged(switch: Any, peak: Value, equipment: Any) -> Judgement:
    part, reason = switch.part, f"closing onto the input of {equipment.name}"
    made = _made(part)
    if isinstance(peak, Unknown) or (made is not None and peak.value <= made.value):
        limit = made or Unknown("current that it makes", (f"{part.id}: breaking",))
        return compare(peak, at_most=limit, reason=reason)
    if part.withstand is not None and peak.value > part.withstand.current:
        source = Source("part data", clause=f"{part.id}: withstand.current")
        text = part.written.get("withstand.current", "")
        limit = given("withstand current", "I_cw", part.withstand.current, "A", source, text)
        return compare(peak, at_most=limit, reason=reason)
    missing = (
        f"{part.id}: breaking >= {amps(peak.value)}, or {equipment.name}: inrush.resistance "
        "with its precharge"
    )
    return unproven(missing, reason=f"{reason} may weld its contacts")


def _made(part: Any) -> Any:
    """The largest current [A] that the contacts are stated for."""
    rows = [(row.current, f"intermittent.{at}.current") for at, row in enumerate(part.intermittent)]
    if part.rated_current is not None:
        rows.append((part.rated_current, "rated_current"))
    if part.breaking is not None:
        rows.append((part.breaking.current, "breaking.current"))
    if not rows:
        return None
    current, field = max(rows)
    source = Source("part data", clause=f"{part.id}: {field}")
    return given("current that it makes", "I_m", current, "A", source, part.written.get(field, ""))
