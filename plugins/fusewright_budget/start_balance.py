"""A converter must not drain the battery that starts the engine."""

from __future__ import annotations

from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, compare, rule, unproven

CARD = Card(
    name="start-balance",
    title="Input side of the converter is fed at least as much as is drawn",
    why="A DC-DC converter draws more amperes than it gives, at its lowest input voltage; what "
    "the alternator cannot give comes out of the start battery until the engine will not start.",
    wrong="A 50 A converter beside a 60 A alternator that also feeds the engine's own loads, or "
    "one that goes on with the engine stopped.",
    right="A smaller converter, one that stops with the engine (draw: 0 % in such conditions), or "
    "a larger alternator.",
    severity="outage",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="converter")
def start_balance(converter: Any, study: Any) -> Judgement | None:
    """All that is drawn on its input side for hours against what sources there may give.

    A source's largest current is no proof of what it gives for hours; where it is too little even
    so, that is a fail.
    """
    balance = study.start_balance(converter)
    if balance is None:
        return None
    judgement = compare(balance.drawn, at_most=balance.given)
    if judgement.verdict == "pass" and balance.unstated:
        return unproven(*(f"{name}: continuous" for name in balance.unstated))
    return judgement
