"""Law: nothing that may spark stands unprotected where petrol vapour may lie."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, fail, passed, unproven
from fusewright_us_small_craft.options import asked, stated
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
)


@law_rule(CARD, each=("device", "disconnect", "channel"))
def ignition_protection(element: Any, study: Any) -> Judgement | None:
    """By what the file states of everything in its engine spaces: parts do not say."""
    if not element.place.engine_space:
        return None
    state = stated(study, "ignition")
    if state is None:
        question = "parts in engine spaces are protected, isolated as in 183.410(b), or neither"
        return unproven(asked("ignition", question), reason=f"in {element.place.name}")
    if state == "neither":
        return fail("neither ignition-protected nor isolated, as stated")
    return passed(f"{state}, as stated for everything in engine spaces")
