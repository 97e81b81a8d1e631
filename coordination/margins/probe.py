"""Judges a system again with other figures, asking only what is wanted, and counts how often."""

from __future__ import annotations

import gc
from collections.abc import Callable, Collection, Mapping
from dataclasses import replace
from time import perf_counter
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.errors import OutOfRange
from coordination.rules.pack import Pack, Packs
from coordination.rules.rule import Judge, Rule
from coordination.trace import Derived

if TYPE_CHECKING:
    from coordination.model import System
    from coordination.rules.finding import Finding, Findings

#: Checks after which what they left behind is taken away.
_SWEPT = 25
#: A rule's full name and its subject's.
Pair = tuple[str, str]

#: How good a verdict is; a fact that is exempt is as good as a pass, and so is none at all.
RANK = {"": 0, "pass": 0, "note": 0, "unproven": 1, "fail": 2}


class State(NamedTuple):
    """What a rule says of a subject, as far as two runs are compared by it."""

    verdict: str
    margin: float | None = None
    found: float | None = None
    required: float | None = None

    @property
    def rank(self) -> int:
        """0 good, 1 unproven, 2 fail."""
        return RANK[self.verdict]


States = Mapping[Pair, State]
#: What stands for a rule that says nothing of a subject.
SILENT = State("")


class Spent(Exception):  # noqa: N818
    """The checks that were allowed are used up."""


class Probe:
    """Judges variants of one system.

    judged -- the findings of a system by some packs
    limit  -- the most checks; None: as many as it takes
    checks -- made so far; seconds -- that they took
    """

    def __init__(
        self,
        judged: Callable[[System, Packs], Findings],
        packs: Packs,
        limit: int | None = None,
    ) -> None:
        self._judged = judged
        self._packs = replace(
            packs, packs=tuple(replace(pack, sections=None) for pack in packs.packs)
        )
        self._limit = limit
        self.checks = 0
        self.seconds = 0.0

    def states(self, system: System, pairs: Collection[Pair] | None = None) -> States | None:
        """What rules say of a system; None where it cannot be judged with such a figure.

        pairs -- all that is asked; None: everything
        Raises Spent.
        """
        if self._limit is not None and self.checks >= self._limit:
            raise Spent
        self.checks += 1
        if self.checks % _SWEPT == 0:
            # The command line looks for no cycles, of which every check leaves some.
            gc.collect()
        packs = self._packs if pairs is None else restricted(self._packs, pairs)
        start = perf_counter()
        try:
            # A waived fail is one that a figure may cure like any other.
            found = self._judged(replace(system, waivers=()), packs)
        except OutOfRange:
            return None
        finally:
            self.seconds += perf_counter() - start
        states = {(each.rule, each.subject): state_of(each) for each in found.findings}
        return None if None in states.values() else _known(states)


def _known(states: Mapping[Pair, State | None]) -> States:
    return {pair: state for pair, state in states.items() if state is not None}


def state_of(finding: Finding) -> State | None:
    """A finding as it is compared; None where the rule crashed: that is no verdict."""
    if finding.verdict == "unproven" and finding.missing[:1] and _crashed(finding.missing[0]):
        return None
    verdict = "fail" if finding.verdict == "waived" else finding.verdict
    return State(verdict, finding.margin, _number(finding.found), _number(finding.required))


def _crashed(phrase: str) -> bool:
    return phrase.startswith("rule crashed")


def _number(value: Any) -> float | None:
    return value.value if isinstance(value, Derived) else None


def restricted(packs: Packs, pairs: Collection[Pair]) -> Packs:
    """The packs with nothing but these rules, asked about nothing but these subjects."""
    subjects: dict[str, set[str]] = {}
    for rule, subject in pairs:
        subjects.setdefault(rule, set()).add(subject)
    return replace(packs, packs=tuple(_restricted(pack, subjects) for pack in packs.packs))


def _restricted(pack: Pack, subjects: Mapping[str, set[str]]) -> Pack:
    kept = [rule for rule in pack.rules if pack.full_name(rule) in subjects]
    asked = (_about(rule, subjects[pack.full_name(rule)]) for rule in kept)
    return replace(pack, rules=tuple(asked))


def _about(rule: Rule, subjects: set[str]) -> Rule:
    whole: Judge = rule.judge

    def judge(subject: Any, study: Any) -> Any:
        return whole(subject, study) if subject.name in subjects else None

    return replace(rule, judge=judge)
