"""Judges changed systems in memory, condition by condition, and keeps what it has judged.

A change is admissible where every target passes and no other finding is worse than it was; that is
asked of each condition alone, so that the first one that says no ends the question.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from contextlib import contextmanager
from typing import TYPE_CHECKING, Final, NamedTuple

from coordination.checking import Request, studies_of
from coordination.suggest.change import Changes
from coordination.suggest.edited import Edited, edited
from coordination.trace import Derived

if TYPE_CHECKING:
    from coordination.model import Place, System
    from coordination.rules.finding import Finding, Findings
    from coordination.rules.pack import Packs
    from coordination.study import Study
    from coordination.trace import Value

#: Rule and subject.
Key = tuple[str, str]

#: Changed systems whose studies are kept at hand, and the rules that are asked before all others.
_KEPT: Final = 8
_GUILTIEST: Final = 4

#: How bad a verdict is; a waived fail is a fail that somebody accepted.
BADNESS: Final = {"pass": 0, "note": 0, "unproven": 1, "waived": 2, "fail": 2}


class Violation(NamedTuple):
    """A finding that keeps changes from being a cure; `key` names its subject as it was before.

    added -- whether the subject was not there before
    """

    key: Key
    finding: Finding
    added: bool = False


class Stopped(Exception):  # noqa: N818 -- no error: the limit is part of the question
    """The limit of judgements or of time is reached."""


class Limit:
    """How many combinations may be judged, and until when."""

    def __init__(self, judged: int, seconds: float) -> None:
        import time

        self._clock = time.monotonic
        self.most, self.seconds = judged, seconds
        self.judged = 0
        self._stop = judged
        self._end = self._clock() + seconds

    @contextmanager
    def portion(self, judged: int) -> Iterator[None]:
        """Within it no more than so many are judged."""
        before = self._stop
        self._stop = min(before, self.judged + judged)
        try:
            yield
        finally:
            self._stop = before

    def count(self) -> None:
        """One more. Raises Stopped where that is one too many, or time is up."""
        if self.judged >= self._stop or self._clock() > self._end:
            raise Stopped
        self.judged += 1


class Bench:
    """One system and its packs, judged as drawn and with changes."""

    def __init__(
        self,
        request: Request,
        system: System,
        packs: Packs,
        places: Mapping[str, Place],
        limit: Limit,
    ) -> None:
        from coordination.rules.judge import judge

        self._judge = judge
        self.request, self.system, self.packs = request, system, packs
        self.places, self.limit = places, limit
        self.studies = studies_of(request, system, packs)
        self.base: Findings = judge(self.studies, packs)
        self.ranks: dict[Key, int] = {
            (each.rule, each.subject): BADNESS[each.verdict] for each in self.base.findings
        }
        self.problems = _problems(self.base)
        self.tried: set[Changes] = set()
        self._recent: dict[Changes, dict[str, Study]] = {}
        self._guilty: Counter[str] = Counter()
        self._edited: dict[Changes, Edited] = {}
        self._kept: dict[tuple[Changes, str, tuple[str, ...]], tuple[Finding, ...] | None] = {}

    def edited(self, changes: Changes) -> Edited:
        """The changed system."""
        if changes not in self._edited:
            self._edited[changes] = edited(self.system, changes, self.places)
        return self._edited[changes]

    def study(self, changes: Changes, condition: str) -> Study:
        """The study of the changed system in one condition."""
        if not changes:
            return self.studies[condition]
        known = self._recent.setdefault(changes, {})
        if condition not in known:
            request = self.request._replace(condition=condition)
            system = self.edited(changes).system
            known[condition] = studies_of(request, system, self.packs)[condition]
            while len(self._recent) > _KEPT:
                del self._recent[next(iter(self._recent))]
        return known[condition]

    def whole(self, system: System) -> Findings:
        """Every finding on a system in all conditions."""
        return self._judge(studies_of(self.request, system, self.packs), self.packs)

    def _asked(
        self, changes: Changes, condition: str, rules: tuple[str, ...] = ()
    ) -> tuple[Finding, ...] | None:
        """The findings of one condition, of one rule or of all; None: a rule could not be run."""
        key = changes, condition, rules
        if key not in self._kept:
            if changes not in self.tried:
                self.limit.count()
                self.tried.add(changes)
            studies = {condition: self.study(changes, condition)}
            found = self._judge(studies, self.packs, only=rules)
            ran = _problems(found) <= self.problems
            # Only what is no pass may stand in the way; its derivation is not looked at.
            open_ones = (_bare(each) for each in found.findings if BADNESS[each.verdict])
            self._kept[key] = tuple(open_ones) if ran else None
        return self._kept[key]

    def violations(
        self,
        changes: Changes,
        targets: Collection[Key],
        relaxed: Collection[str | Key] = (),
        hot: Violation | None = None,
    ) -> list[Violation] | None:
        """What keeps the changes from being a cure, of the first condition where anything does.

        hot -- looked at first: it is likely to be still there
        None: a rule crashed that did not before. Raises Stopped.
        """
        names = self.edited(changes)
        for condition, rules in self._order(hot, targets):
            asked = self._asked(changes, condition, rules)
            if asked is None:
                return None
            found = list(self.among(asked, names, targets, relaxed))
            if found:
                self._guilty.update({each.key[0] for each in found})
                return found
        return []

    def still_open(self, changes: Changes, targets: Collection[Key]) -> int:
        """How many of the targets do not pass with these changes. Raises Stopped."""
        names = self.edited(changes)
        found: set[Key] = set()
        for condition in self.studies:
            for each in self.among(self._asked(changes, condition) or (), names, targets):
                found.add(each.key)
        return len(found & set(targets))

    def _order(
        self, hot: Violation | None, targets: Collection[Key]
    ) -> Iterator[tuple[str, tuple[str, ...]]]:
        """Conditions with the rules to ask there (none named: all), the likeliest to fail first."""
        names = list(self.studies)
        if hot is not None:
            # A few rules are asked in a tenth of the time of all.
            wanted = {hot.key[0], *(rule for rule, _ in targets)}
            yield hot.finding.condition, tuple(sorted(wanted))
            names.sort(key=lambda name: name != hot.finding.condition)
            wanted |= {rule for rule, _ in self._guilty.most_common(_GUILTIEST)}
            yield from ((name, tuple(sorted(wanted))) for name in names)
        yield from ((name, ()) for name in names)

    def among(
        self,
        findings: Iterable[Finding],
        names: Edited,
        targets: Collection[Key],
        relaxed: Collection[str | Key] = (),
    ) -> Iterator[Violation]:
        """The findings that are worse than before, and the targets that do not pass."""
        for finding in findings:
            added = finding.subject in names.added
            subject = names.names.get(finding.subject, finding.subject)
            key = finding.rule, subject
            bad = BADNESS[finding.verdict]
            allowed = 0 if key in targets or added else self.ranks.get(key, 0)
            if bad <= allowed:
                continue
            if finding.verdict == "fail" and (finding.rule in relaxed or key in relaxed):
                continue
            yield Violation(key, finding, added)


def _bare(finding: Finding) -> Finding:
    """The finding with its numbers, without what led to them: thousands are kept."""
    return finding._replace(found=_leaf(finding.found), required=_leaf(finding.required))


def _leaf(value: Value | None) -> Value | None:
    if isinstance(value, Derived):
        return Derived(value.quantity, value.symbol, value.value, value.unit, written=value.written)
    return value


def _problems(findings: Findings) -> frozenset[tuple[str, str]]:
    """What of a run says that something was not checked."""
    return frozenset((each.kind, each.about) for each in findings.problems if each.incomplete)
