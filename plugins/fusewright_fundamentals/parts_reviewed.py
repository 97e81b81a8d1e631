"""A part's figures are as good as their last review."""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, fail, note, passed, rule

CARD = Card(
    name="parts-reviewed",
    title="The part's figures were reviewed",
    why="Every verdict rests on the figures of the part; nobody has vouched for a draft.",
    wrong="A rating copied from a shop page, entered as draft and never held against a data sheet.",
    right="Hold the figures against the data sheet, note its page, set the status to reviewed.",
    severity="paperwork",
    source=COMMON_PRACTICE,
    basis="practice",
)


@rule(CARD, each=("element", "busbar", "source"))
def parts_reviewed(subject: Any, study: Any) -> list[Judgement] | None:  # noqa: ARG001
    """The part itself and, for a cable, the other cable that its current comes back through."""
    own = getattr(subject, "part", None)
    back = getattr(getattr(subject, "return_path", None), "part", None)
    parts = {part.id: part for part in (own, back) if part is not None}
    return [_one(part) for part in parts.values()] or None


def _one(part: Any) -> Judgement:
    if part.status == "retired":
        successor = part.successor
        named = f"; its successor is {successor}" if successor else ""
        return fail(f"{part.id} is retired{named}")
    if part.status == "draft":
        return note(f"{part.id} is a draft: its figures were not reviewed", source=COMMON_PRACTICE)
    if part.status is None:
        return note(f"{part.id} does not say whether it was reviewed", source=COMMON_PRACTICE)
    return passed(f"{part.id} is {part.status}")
