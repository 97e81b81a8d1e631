"""The conductors on an inverter's output need a breaker that they outlast and that holds."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, compare, rule

CARD = Card(
    name="inverter-output",
    title="Breaker on the inverter's output fits conductors and inverter",
    why="An inverter gives its surge into an overload for seconds and its rating for ever: "
    "conductors behind a breaker above their own rating are protected by electronics only, and a "
    "breaker below the inverter's rating opens at its full load.",
    wrong="A 30 A breaker of the shore side, with 2.5 mm² behind it, kept for the inverter.",
    right="A breaker rated between the inverter's output current and what the conductors carry.",
    severity="fire",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="equipment")
def inverter_output(inverter: Any, study: Any) -> Iterator[Judgement]:
    """Breaker against conductors; then output and surge against what the breaker carries."""
    output = study.ac_output(inverter)
    if output is None:
        return
    yield compare(output.breaker, at_most=output.conductor, reason="conductors behind it")
    yield compare(output.rated, at_most=output.breaker, severity="outage")
    if output.surge is not None:
        yield compare(output.surge, at_most=output.holds, reason="surge", severity="outage")
