"""A switch must carry, unharmed, what flows through it until a fault has been cleared."""

from __future__ import annotations

from collections.abc import Iterator
from math import inf
from typing import Any

from coordination.rules import (
    Card,
    Judgement,
    Source,
    compare,
    derive,
    fail,
    given,
    passed,
    rule,
    unproven,
)
from fusewright_fundamentals.amounts import amps
from fusewright_fundamentals.cranking_path import cranking_note
from fusewright_fundamentals.let_through import (
    Clearing,
    Heat,
    heats,
    of_device,
    of_side,
    steps,
    unknowns,
)

CARD = Card(
    name="switch-withstand",
    title="Switch outlasts the fault",
    why="A switch or contactor does not open on a fault, it carries it until a device has. Its "
    "contacts heat with I²t and are pushed apart with I²; then they weld, or burn on. Its stated "
    "withstand holds for shorter times at the same I²t, never for a larger current.",
    wrong="A 200 A contactor behind a 300 A fuse on a lithium bank of 12 kA.",
    right="A switch whose stated withstand covers current and I²t, or a faster device ahead of it.",
    severity="fire",
    source=Source(
        "IEC 60947-3:2020", clause="rated short-time withstand current Icw, by I²t", read=False
    ),
)


@rule(CARD, each="disconnect")
def switch_withstand(switch: Any, study: Any) -> Iterator[Judgement]:
    """From each side that feeds a fault, over all fault currents that may flow through it.

    Where a battery reaches the switch bare, the device behind it in the same circuit counts.
    """
    for side in study.fault_range(switch):
        clearing = of_side(side)
        if side.exposed:
            behind = next(iter(study.series_devices(switch)), None)
            if behind is None:
                names = ", ".join(source.name for source in side.exposed)
                exempt = cranking_note(switch, study)
                yield exempt or fail(f"no device clears a fault fed by {names}")
                continue
            clearing = of_device(behind, study)
        missing = unknowns((side.highest, side.lowest)) or clearing.missing
        if missing:
            yield unproven(*missing, reason="how large a fault is, and how long it lasts")
        elif side.highest.value > 0.0:
            yield _over_the_range(switch, side, clearing)


def _over_the_range(switch: Any, side: Any, clearing: Clearing) -> Judgement:
    high = side.highest.value
    low = min(side.lowest.value, high) if side.lowest.value > 0.0 else high
    rows = _rows(switch.part)
    ends = [*clearing.corners, *(current for current, _ in rows)]
    worst: Heat | None = None
    for heat in heats(low, high, ends, clearing):
        if not isinstance(heat, Heat):
            if any(heat <= upto and time == inf for upto, time in rows):
                continue
            return unproven(f"{clearing.names}: clearing time at {amps(heat)}")
        carried = any(heat.current <= upto and heat.time <= time for upto, time in rows)
        if not carried and (worst is None or heat.energy > worst.energy):
            worst = heat
    if worst is None:
        return passed(f"its ratings for a time cover every fault up to {amps(high)}")
    return _judged(switch, side, worst, high)


def _rows(part: Any) -> list[tuple[float, float]]:
    """Currents [A] and times [s] that the part states to carry."""
    found = [(row.current, row.time) for row in part.intermittent]
    if part.rated_current is not None:
        found.append((part.rated_current, inf))
    return found


def _judged(switch: Any, side: Any, worst: Heat, high: float) -> Judgement:
    part = switch.part
    if part.withstand is None:
        return unproven(f"{part.id}: withstand", reason="what it must carry in a fault")
    source = Source("part data", clause=f"{part.id}: withstand")
    current = given(
        "withstand current", "I_cw", part.withstand.current, "A", source,
        part.written.get("withstand.current", ""),
    )  # fmt: skip
    time = given(
        "withstand time", "t_cw", part.withstand.time, "s", source,
        part.written.get("withstand.time", ""),
    )  # fmt: skip
    limit = derive(
        lambda amperes, seconds: amperes * amperes * seconds, "withstand I²t", "J_cw", "A²s",
        "I_cw² × t_cw", current, time, source=CARD.source,
    )  # fmt: skip
    judged = compare(steps(worst, switch, side.highest), at_most=limit)
    if judged.verdict == "pass" and high > part.withstand.current:
        return unproven(
            f"{part.id}: withstand at >= {amps(high)}", reason="its heat is covered, not its force"
        )
    return judged
