"""The current comes back: the return leg must bear what the positive leg's device lets through."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Source, compare, rule, unproven
from fusewright_fundamentals.cranking_path import cranking_note
from fusewright_fundamentals.legs import leg_of
from fusewright_fundamentals.overload_bound import Bare, overload_bound

CARD = Card(
    name="return-conductor",
    title="Return leg is as able as its protection demands",
    why="The same current flows back, but no device stands in the return leg: the one in the "
    "positive leg protects both, so both must bear it. Of a hull, chassis or other path the "
    "resistance may be known, yet not what current its joints bear: that stays unproven.",
    wrong="A thin black cable beside a thick red one; a chassis path over one small stud; a return "
    "that nobody traced.",
    right="A return cable of the same size as the positive one, or a smaller device.",
    severity="fire",
    source=Source("IEC 60364-4-43:2008", clause="431 and 433.1", read=False),
)


@rule(CARD, each="cable")
def return_conductor(cable: Any, study: Any) -> Judgement | Iterator[Judgement] | None:
    """Load and overload bound against the ampacity of the return leg, the worse counting."""
    bound = overload_bound(cable, study)
    if bound is None:
        return None
    if cable.return_path.kind == "path":
        return unproven(f"{cable.name}: return: current that its path bears, beside its resistance")
    if cable.return_path.kind == "none":
        return unproven(f"{cable.name}: return: what the current comes back through")
    if isinstance(bound, Bare) and (exempt := cranking_note(cable, study)):
        return exempt
    return _judgements(cable, study, bound)


def _judgements(cable: Any, study: Any, bound: Any) -> Iterator[Judgement]:
    limit = study.ampacity(cable, leg_of(cable, study, "return"))
    basis = f"ampacity basis: {study.basis.name}"
    yield compare(study.load(cable), at_most=limit, reason=basis)
    if isinstance(bound, Bare):
        yield unproven(f"a device that limits the current from {', '.join(bound.batteries)}")
    else:
        yield compare(bound, at_most=limit, reason=basis)
