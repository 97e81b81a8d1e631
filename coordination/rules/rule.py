"""A rule: its card, the subjects it judges, and one function."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Any

from catalogue.frozen import dataclass
from coordination.rules.card import Card
from coordination.rules.judgement import Judgement

#: A rule's function: (subject, study) to one judgement, several (the worst counts), or None where
#: the rule does not concern this subject.
Judge = Callable[[Any, Any], Judgement | Iterable[Judgement] | None]

#: What `each` may name. "device" is every fuse and breaker, "element" every element of a circuit.
SUBJECTS = (
    "fuse",
    "breaker",
    "device",
    "disconnect",
    "channel",
    "cable",
    "joint",
    "element",
    "busbar",
    "source",
    "equipment",
    "converter",
    "inlet",
)


@dataclass(frozen=True, slots=True)
class Rule:
    """A card with the kinds of subject it is asked about and the function that judges one."""

    card: Card
    each: tuple[str, ...]
    judge: Judge


def rule(card: Card, *, each: str | tuple[str, ...]) -> Callable[[Judge], Rule]:
    """Make a rule of the decorated function `(subject, study)`.

    Raises ValueError if `each` names a kind of subject that does not exist.
    """
    kinds = (each,) if isinstance(each, str) else each
    for kind in kinds:
        if kind not in SUBJECTS:
            raise ValueError(
                f"{card.name}: no subject kind {kind!r}; there are {', '.join(SUBJECTS)}"
            )
    return lambda judge: Rule(card, kinds, judge)
