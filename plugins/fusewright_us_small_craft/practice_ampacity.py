"""Practice: what a conductor carries stays within the standard's table."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Installation,
    Judgement,
    Value,
    capped,
    compare,
    derive,
    given,
    note,
    rule,
)
from fusewright_us_small_craft import table5
from fusewright_us_small_craft.conductor import installations
from fusewright_us_small_craft.cranking import is_cranking
from fusewright_us_small_craft.scope import E11, practice

CARD = Card(
    name="practice-ampacity",
    title="Practice: conductor within the table",
    why="The figures for 105 °C are those of the federal table and were read, with 0.85 in an "
    "engine space. Those for other insulation, and bundles below 50 V, which recent editions "
    "count, are from memory.",
    wrong="A cable of 75 °C insulation used at the figures of 105 °C cable.",
    right="A larger conductor, cable of 105 °C insulation, or circuits laid apart.",
    severity="fire",
    source=practice(E11, "Table VI"),
    basis="practice",
)
_BUNDLE = practice(E11, "Table VI, direct current in bundles", read=False)


@rule(CARD, each="cable")
def practice_ampacity(cable: Any, study: Any) -> Judgement | Iterator[Judgement]:
    """Design current against the table, then against it with the bundle's factor."""
    if is_cranking(cable, study):
        return note("cranking conductor: draws for seconds", source=CARD.source)
    return _legs(cable, study)


def _legs(cable: Any, study: Any) -> Iterator[Judgement]:
    load = study.load(cable)
    for leg in installations(cable, study):
        alone = _alone(leg)
        judgement = compare(load, at_most=alone, reason=f"{leg.leg} leg")
        yield judgement if _was_read(alone) else capped(judgement)
        if 2 * leg.bundle * leg.runs >= 3:
            bundled = _bundled(alone, leg)
            reason = f"{leg.leg} leg, in a bundle"
            yield capped(compare(load, at_most=bundled, reason=reason))


def _alone(leg: Installation) -> Value:
    return table5.ampacity(replace(leg, bundle=1, runs=1)) if leg.runs == 1 else derive(
        lambda k, i: k * i, "current of the table", "I_z", "A", "k_e × I_5",
        table5.place_factor(leg), table5.literal(leg),
    )  # fmt: skip


def _was_read(limit: Value) -> bool:
    """Only the 105 °C column of the standard's own table was read."""
    if not isinstance(limit, Derived):
        return True
    columns = [step.value for step in limit.steps() if step.quantity == "insulation column"]
    return set(columns) == {105.0}


def _bundled(alone: Value, leg: Installation) -> Value:
    count = 2 * leg.bundle * leg.runs
    factor = given(f"{count} conductors together", "k_b", table5.bundled_share(count), "", _BUNDLE)
    return derive(
        lambda k, i: k * i, "current in the bundle", "I_b", "A", "k_b × I_z", factor, alone
    )
