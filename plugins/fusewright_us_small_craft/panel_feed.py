"""Practice: what feeds a panel is rated for the panel; a busbar may be one."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, capped, compare, derive, rule, unproven
from coordination.rules.kit.stated import rating
from coordination.rules.kit.zone import zone
from fusewright_us_small_craft.device_bound import supply
from fusewright_us_small_craft.options import asked, stated
from fusewright_us_small_craft.scope import E11, practice

CARD = Card(
    name="panel-feed",
    title="Practice: device ahead of a panel",
    why="The branches of a panel add up on its bus; only the device ahead of it keeps the sum "
    "within what the panel is built for.",
    wrong="A 100 A fuse ahead of a panel of 60 A, because each branch is small.",
    right="A device at 100 % of the panel's rating at most. The figure is from memory.",
    severity="paperwork",
    source=practice(E11, "E-11.10.1.2", read=False),
    basis="practice",
)


@rule(CARD, each="busbar")
def panel_feed(busbar: Any, study: Any) -> Iterator[Judgement]:
    """A busbar that would pass as a panel passes; one that would not is asked about."""
    if zone(busbar.name, study).batteries(study):
        return
    feeding = supply(busbar.name, None, study)
    if feeding is None:
        return
    panels = _panels(study)
    if panels is not None and busbar.name not in panels:
        return
    rated = rating(busbar.part, "rated_current", "rating of the panel", "I_p", "A")
    limit = derive(float, "largest device ahead", "I_max", "A", "I_p", rated, source=CARD.source)
    judgement = capped(compare(feeding, at_most=limit))
    if judgement.verdict == "fail" and panels is None:
        reason = "its feed is above its rating"
        judgement = unproven(asked("panelboards"), reason=reason)
    yield judgement


def _panels(study: Any) -> set[str] | None:
    names = stated(study, "panelboards")
    return None if names is None else {name.strip() for name in str(names).split(",")}
