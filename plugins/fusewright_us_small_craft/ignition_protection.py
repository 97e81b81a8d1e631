"""Law: nothing that may spark stands unprotected where petrol vapour may lie."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, fail, passed, unproven
from fusewright_us_small_craft.options import asked, field, of_part, stated
from fusewright_us_small_craft.scope import law, law_rule

CARD = Card(
    name="ignition-protection",
    title="Law: ignition protection",
    why="Petrol vapour sinks into the engine space and waits for a spark from a contact. A "
    "drawing shows neither tanks nor vapour: only parts placed in an engine space are asked for.",
    wrong="An open fuse block or a car relay beside the petrol engine.",
    right="Ignition-protected parts, or a place isolated by a bulkhead or 2 ft of open air.",
    severity="fire",
    source=law("183.410"),
    basis="law",
)


@law_rule(CARD, each=("device", "disconnect", "channel"))
def ignition_protection(element: Any, study: Any) -> Judgement | None:
    """By the part's own marking; else by what the file states for all its engine spaces."""
    if not element.place.engine_space:
        return None
    if of_part(element.part, "ignition_protected"):
        return passed("marked as ignition-protected")
    state = stated(study, "ignition")
    if state == "isolated":
        return passed("isolated, as stated of everything in engine spaces")
    if of_part(element.part, "ignition_protected") is False or state == "neither":
        return fail("neither ignition-protected nor isolated, as stated")
    if state == "protected":
        return passed("protected, as stated of everything in engine spaces")
    either = field(element.part, "ignition_protected")
    return unproven(f"{either}, or {asked('ignition')}", reason=f"in {element.place.name}")
