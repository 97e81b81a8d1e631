"""Law: a device in an alternator's or generator's output is rated at 120 % of it at most."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card
from fusewright_us_small_craft.charging_limit import judge_charging
from fusewright_us_small_craft.scope import law, law_rule

CARD = Card(
    name="charging-device",
    title="Law: device in a generator's output",
    why="A machine that does not limit its own current burns its windings behind a larger device.",
    wrong="A 150 A fuse in the output of an 80 A alternator without a regulator that limits it.",
    right="A device up to 120 % of the largest output at 60 °C; or state that it is self-limiting.",
    severity="damage",
    source=law("183.460(b)"),
    basis="law",
)


@law_rule(CARD, each=("source", "converter"))
def charging_device(source: Any, study: Any) -> Any:
    """Batteries have a rule of their own; a converter counts as a charging source."""
    if getattr(source, "part", None) is not None:
        return None
    return judge_charging(source, study, CARD.source)
