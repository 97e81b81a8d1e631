"""Says once whether the federal law governs this boat, by what the file states of its engine."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, note, passed, rule, unproven
from fusewright_us_small_craft.options import asked
from fusewright_us_small_craft.scope import law, law_applies

CARD = Card(
    name="federal-scope",
    title="Law: whether Subpart I applies",
    why="33 CFR 183 Subpart I binds boats with a petrol engine aboard, outboards not counted; on "
    "a diesel or electric boat its rules are advice, and are not judged here.",
    wrong="A petrol generator on a diesel boat forgotten: it brings the whole boat under the law.",
    right="State the engine under options: us_small_craft: petrol_engine.",
    severity="paperwork",
    source=law("183.401"),
    basis="law",
)


@rule(CARD, each="source")
def federal_scope(source: Any, study: Any) -> Judgement | None:
    """Asked of every source, answered on the first."""
    if source is not next(iter(study.system.sources.values())):
        return None
    applies = law_applies(study)
    if applies is None:
        return unproven(asked("petrol_engine"), reason="the law's rules are not judged")
    if applies:
        return passed("a petrol engine is stated to be aboard: Subpart I is judged")
    return note(
        "no petrol engine aboard: outside Subpart I, its rules are not judged; the voluntary "
        "practice is",
        source=CARD.source,
    )
