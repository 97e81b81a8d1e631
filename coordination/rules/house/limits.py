"""One limit of a house rule: what is asked, and what the answer must be."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple, Protocol

from coordination.rules.house.vocabulary import Word
from coordination.rules.judgement import Judgement, compare, fail, passed, unproven
from coordination.trace import Derived

_LITHIUM = ("lfp", "nmc", "lto")

#: What a device or a cable may lie directly on, and whether a battery of a chemistry counts.
NEIGHBOURS: dict[str, Callable[[str], bool]] = {
    "battery": lambda chemistry: True,  # noqa: ARG005
    "lithium battery": lambda chemistry: chemistry in _LITHIUM,
    "lead-acid battery": lambda chemistry: chemistry.startswith("lead-acid"),
}


class Limit(Protocol):
    """Something that holds of a subject, does not, or cannot be told."""

    def judge(self, subject: Any, study: Any) -> Judgement:
        """pass, fail or unproven."""

    def words(self) -> str:
        """The limit as somebody would say it."""


class QuantityLimit(NamedTuple):
    """A quantity at most or at least something."""

    name: str
    word: Word
    relation: str
    value: Derived

    def judge(self, subject: Any, study: Any) -> Judgement:
        """The comparison."""
        found = self.word.ask(subject, study)
        if self.relation == ">=":
            return compare(found, at_least=self.value)
        return compare(found, at_most=self.value)

    def words(self) -> str:
        """ "area >= 2.5 mm²"."""
        return f"{self.name} {self.relation} {self.value.written}"


class WordLimit(NamedTuple):
    """A text that is one of several, or a flag."""

    name: str
    word: Word
    allowed: tuple[str | bool, ...]

    def judge(self, subject: Any, study: Any) -> Judgement:
        """Whether what is stated is among what is allowed."""
        found = self.word.ask(subject, study)
        if found is None:
            part = getattr(subject, "part", None)
            return unproven(f"{subject.name if part is None else part.id}: {self.name}")
        same = found if isinstance(found, bool) else found.casefold()
        if same in self.allowed:
            return passed(f"{self.name}: {_said(found)}")
        return fail(f"{self.name} is {_said(found)}, not {self._choice()}")

    def words(self) -> str:
        """ "family class-t or class-j"."""
        return f"{self.name} {self._choice()}"

    def _choice(self) -> str:
        return " or ".join(map(_said, self.allowed))


class NextTo(NamedTuple):
    """Whether an end of it reaches a battery, or a busbar, with no protective device between."""

    what: str

    def judge(self, subject: Any, study: Any) -> Judgement:
        """Pass if it does; a battery of unstated chemistry cannot be told."""
        if self.what == "busbar":
            on_one = {subject.start, subject.end} & study.system.busbars.keys()
            return passed("on a busbar") if on_one else fail("on no busbar")
        met = {
            battery.name: battery
            for end in ("start", "end")
            for battery in study.protectors(subject, end).exposed
        }
        unclear = []
        for battery in met.values():
            chemistry = battery.part.chemistry
            if self.what != "battery" and chemistry is None:
                unclear.append(f"{battery.part.id}: chemistry")
            elif NEIGHBOURS[self.what](chemistry or ""):
                return passed(f"directly on {battery.name}")
        return unproven(*unclear) if unclear else fail(f"on no {self.what}")

    def words(self) -> str:
        """ "directly on lithium battery"."""
        return f"directly on {self.what}"


def _said(value: str | bool) -> str:
    return value if isinstance(value, str) else "yes" if value else "no"


def concerns(where: tuple[Limit, ...], subject: Any, study: Any) -> Judgement | None:
    """None: all conditions hold; a fail: one does not; unproven: one cannot be told."""
    missing: dict[str, None] = {}
    for limit in where:
        answer = limit.judge(subject, study)
        if answer.verdict == "fail":
            return answer
        if answer.verdict == "unproven":
            missing |= dict.fromkeys(answer.missing)
    if missing:
        return unproven(*missing, reason="whether the house rule concerns it is not known")
    return None
