"""What of a rule's answer is believed: the right kinds of thing, and no pass its figures deny."""

from __future__ import annotations

from collections.abc import Mapping
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
        if not _well_made(answer):
            raise TypeError(f"a judgement whose {_ill_made(answer)}")
        if answer.verdict == "pass":
            _check_pass(answer)
        return answer

    def check_figures(self, answer: Judgement) -> None:
        """Raises TypeError unless both sides are derivations; asked of answers that are shown."""
        for side in (answer.found, answer.required):
            if side.__class__ is Unknown:
                self._check_unknown(side)
            elif side is not None:
                self._check_tree(side)

    def _check_unknown(self, side: Any) -> None:
        if not _texts(side.missing):
            raise TypeError("an Unknown whose `missing` is no tuple of texts")
        for step in side.known:
            self._check_tree(step)

    def _check_tree(self, root: Any) -> None:
        """Every step of a derivation; not those seen before, nor the engine's own deferred ones."""
        sound = self._sound
        if root.__class__ is Deferred or id(root) in sound:
            return
        waiting = [root]
        while waiting:
            step = waiting.pop()
            if step.__class__ is not Derived:
                raise TypeError(f"{step!r:.60} where a Derived or an Unknown is due")
            _check_step(step)
            sound[id(step)] = step
            for each in step.inputs:
                if each.__class__ is not Deferred and id(each) not in sound:
                    waiting.append(each)


def _check_step(step: Derived) -> None:
    if step.value.__class__ is not float and not _number(step.value):
        raise TypeError(f"{step.quantity!r:.60} with the value {step.value!r:.60}")
    if not (
        step.quantity.__class__ is str
        and step.symbol.__class__ is str
        and step.unit.__class__ is str
        and step.formula.__class__ is str
        and step.written.__class__ is str
    ):
        raise TypeError(f"something other where {step.quantity!r:.60} has texts")
    if step.source is not None and step.source.__class__ is not Source:
        raise TypeError(f"{step.source!r:.60} where a derivation has its Source")


def _well_made(answer: Judgement) -> bool:
    """Whether every field is of its kind; written out, as it is asked of every answer."""
    margin, missing, source = answer.margin, answer.missing, answer.source
    return (
        answer.verdict in _VERDICTS
        and answer.severity in _SEVERITIES
        and answer.relation in _RELATIONS
        and (margin is None or margin.__class__ is float or _number(margin))
        and answer.reason.__class__ is str
        and (missing == () or _texts(missing))
        and (source is None or source.__class__ is Source)
        and (answer.verdict != "unproven" or missing != ())
    )


def _ill_made(answer: Judgement) -> str:
    """What of an answer that is not well made is wrong."""
    right = {
        "verdict": answer.verdict in _VERDICTS,
        "severity": answer.severity in _SEVERITIES,
        "relation": answer.relation in _RELATIONS,
        "margin": answer.margin is None or _number(answer.margin),
        "reason": answer.reason.__class__ is str,
        "missing": _texts(answer.missing),
        "source": answer.source is None or answer.source.__class__ is Source,
    }
    for field, fits in right.items():
        if not fits:
            return f"{field} is {getattr(answer, field)!r:.60}"
    return "verdict is unproven with nothing missing"


def _check_pass(answer: Judgement) -> None:
    if answer.missing or isinstance(answer.found, Unknown) or isinstance(answer.required, Unknown):
        raise ValueError("a pass with something unknown")
    if answer.margin is not None and not answer.margin >= 1 - 2 * ROUNDING:
        raise ValueError(f"a pass with margin {answer.margin}")


def _number(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def _texts(items: Any) -> bool:
    return isinstance(items, tuple) and all(isinstance(item, str) for item in items)
