"""What of a rule's answer is believed: the right kinds of thing, and no pass its figures deny."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice
from typing import Any, get_args

from coordination.rules.card import Severity
from coordination.rules.judgement import ROUNDING, Judgement, Relation
from coordination.study.deferred import Deferred
from coordination.trace import Derived, Source, Unknown

#: More answers than a rule can have about one subject.
MOST = 100

_VERDICTS = ("pass", "fail", "unproven", "note")
_SEVERITIES = (None, *get_args(Severity))
_RELATIONS = get_args(Relation)


def answers(given: Any) -> tuple[Judgement, ...]:
    """A rule's answer as judgements; None: it does not concern the subject. Raises TypeError."""
    if given is None:
        return ()
    if isinstance(given, Judgement):
        return (given,)
    if isinstance(given, (str, bytes, Mapping)):
        raise TypeError(f"a rule answers with Judgements, not {given!r:.60}")
    found = tuple(islice(given, MOST + 1))
    if len(found) > MOST:
        raise TypeError(f"more than {MOST} answers about one subject")
    return found


class Belief:
    """Judges answers; remembers which derivations were looked at, as they share most steps."""

    def __init__(self) -> None:
        self._sound: dict[int, Derived] = {}

    def believed(self, answer: Any) -> Judgement:
        """The answer. Raises TypeError or ValueError if it is none or cannot be true."""
        if not isinstance(answer, Judgement):
            raise TypeError(f"a rule answers with Judgements, not {answer!r:.60}")
        for what in _ill_made(answer):
            raise TypeError(f"a judgement whose {what}")
        for side in (answer.found, answer.required):
            self._check_side(side)
        if answer.verdict == "pass":
            _check_pass(answer)
        return answer

    def _check_side(self, side: Any) -> None:
        if side is None:
            return
        if isinstance(side, Unknown):
            if not _texts(side.missing):
                raise TypeError("an Unknown whose `missing` is no tuple of texts")
            for step in side.known:
                self._check_tree(step)
        else:
            self._check_tree(side)

    def _check_tree(self, root: Any) -> None:
        """Every step of a derivation; not those seen before, nor the engine's own deferred ones."""
        waiting = [root]
        while waiting:
            step = waiting.pop()
            if step.__class__ is Deferred or id(step) in self._sound:
                continue
            if step.__class__ is not Derived:
                raise TypeError(f"{step!r:.60} where a Derived or an Unknown is due")
            _check_step(step)
            self._sound[id(step)] = step
            waiting.extend(step.inputs)


def _check_step(step: Derived) -> None:
    if step.value.__class__ is not float and not _number(step.value):
        raise TypeError(f"{step.quantity!r:.60} with the value {step.value!r:.60}")
    for text in (step.quantity, step.symbol, step.unit, step.formula, step.written):
        if text.__class__ is not str and not isinstance(text, str):
            raise TypeError(f"{text!r:.60} where a derivation has a text")
    if step.source is not None and not isinstance(step.source, Source):
        raise TypeError(f"{step.source!r:.60} where a derivation has its Source")


def _ill_made(answer: Judgement) -> Iterator[str]:
    if answer.verdict not in _VERDICTS:
        yield f"verdict is {answer.verdict!r:.60}"
    if answer.severity not in _SEVERITIES:
        yield f"severity is {answer.severity!r:.60}"
    if answer.relation not in _RELATIONS:
        yield f"relation is {answer.relation!r:.60}"
    if answer.margin is not None and not _number(answer.margin):
        yield f"margin is {answer.margin!r:.60}"
    if not isinstance(answer.reason, str):
        yield f"reason is {answer.reason!r:.60}"
    if not _texts(answer.missing):
        yield f"missing is {answer.missing!r:.60}"
    if answer.source is not None and not isinstance(answer.source, Source):
        yield f"source is {answer.source!r:.60}"
    if answer.verdict == "unproven" and not answer.missing:
        yield "verdict is unproven with nothing missing"


def _check_pass(answer: Judgement) -> None:
    if answer.missing or isinstance(answer.found, Unknown) or isinstance(answer.required, Unknown):
        raise ValueError("a pass with something unknown")
    if answer.margin is not None and not answer.margin >= 1 - 2 * ROUNDING:
        raise ValueError(f"a pass with margin {answer.margin}")


def _number(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _texts(items: Any) -> bool:
    return isinstance(items, tuple) and all(isinstance(item, str) for item in items)
