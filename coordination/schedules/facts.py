"""What several schedules ask of a run: the worst over all conditions, and verdicts by subject.

A cell is empty where the number is not known: a sheet that is handed over invents nothing.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping
from functools import cached_property
from typing import TYPE_CHECKING, Any

from coordination.report.pair_rows import PairRow, pair_rows
from coordination.report.summary import ORDER
from coordination.report.wording import amount, clean, number
from coordination.trace import Derived, Unknown, Value

if TYPE_CHECKING:
    from datetime import date

    from catalogue.parts import Part
    from coordination.model import System
    from coordination.rules.finding import Finding, Findings

#: What stands in a cell that is to be filled in by hand, and where nothing is known.
EMPTY = ""


class Facts:
    """One run, asked for the cells of its schedules; `made` is the date of calculation."""

    def __init__(self, findings: Findings, made: date) -> None:
        self.findings, self.made = findings, made

    @property
    def system(self) -> System:
        """The system as written."""
        return self.findings.system

    @property
    def studies(self) -> tuple[Any, ...]:
        """The study of every condition."""
        return tuple(self.findings.studies.values())

    def most(
        self, ask: Callable[[Any], Value], where: Callable[[Any], bool] = lambda _: True
    ) -> Value | None:
        """The largest of what the studies answer; Unknown if one of them is; None without any.

        where -- which studies are asked
        """
        return _extreme([ask(study) for study in self.studies if where(study)], max)

    def least(self, ask: Callable[[Any], Value]) -> Value | None:
        """The least of what they answer, zeros aside: no current flows in such a condition."""
        values = [ask(study) for study in self.studies]
        flowing = [v for v in values if isinstance(v, Unknown) or v.value != 0.0]
        return _extreme(flowing, min)

    def of(self, subject: str) -> tuple[Finding, ...]:
        """The findings about a subject."""
        return tuple(self._by_subject.get(subject, ()))

    def of_rule(self, subject: str, rule: str) -> Finding | None:
        """The worst finding about a subject by a rule's short name, whatever the pack."""
        found = [one for one in self.of(subject) if one.rule.rpartition("/")[2] == rule]
        return min(found, key=lambda one: ORDER.index(one.verdict), default=None)

    def verdicts(self, subject: str) -> str:
        """ "1 fail: interrupt-rating; 6 pass"; rules are named where not all is proven."""
        groups: dict[str, list[str]] = {}
        for one in self.of(subject):
            groups.setdefault(one.verdict, []).append(clean(one.rule.rpartition("/")[2]))
        return "; ".join(_counted(each, groups[each]) for each in ORDER if each in groups)

    def notes(self, subject: str) -> str:
        """The waivers that hold for a subject, by whom and why."""
        waived = (one.waiver for one in self.of(subject) if one.waiver is not None)
        return "; ".join(
            clean(f"waived by {each.by}, {each.date.isoformat()}: {each.reason}") for each in waived
        )

    @cached_property
    def _by_subject(self) -> Mapping[str, list[Finding]]:
        found: dict[str, list[Finding]] = {}
        for one in self.findings.findings:
            found.setdefault(one.subject, []).append(one)
        return found

    @cached_property
    def pairs(self) -> Mapping[str, list[PairRow]]:
        """By downstream device: its pairs with the next device upstream, in every condition."""
        found: dict[str, list[PairRow]] = {}
        for study in self.studies:
            for pair, row in zip(study.pairs(), pair_rows(study), strict=True):
                if pair.nearest:
                    found.setdefault(row.downstream, []).append(row)
        return found


def _extreme(values: list[Value], pick: Callable[..., Derived]) -> Value | None:
    known = [value for value in values if isinstance(value, Derived)]
    unknown = next((value for value in values if isinstance(value, Unknown)), None)
    if unknown is not None or not known:
        return unknown
    return pick(known, key=lambda value: value.value)


def _counted(verdict: str, rules: list[str]) -> str:
    head = f"{len(rules)} {verdict}"
    if verdict in ("pass", "note"):
        return head
    return f"{head}: {', '.join(dict.fromkeys(rules))}"


def cell(value: Value | None) -> str:
    """A number with its unit; empty where it is not known."""
    if isinstance(value, Derived) and math.isfinite(value.value):
        return amount(value)
    return EMPTY


def stated(thing: Any, field: str, unit: str) -> str:
    """A figure [SI unit] that a part or a thing of the file states, in the unit it was written."""
    value = thing
    for name in field.split("."):
        value = getattr(value, name, None)
    return EMPTY if value is None else number(value, unit, thing.written.get(field, ""))


def yes_no(flag: bool | None) -> str:
    """A flag in words; empty where it is not stated."""
    return EMPTY if flag is None else "yes" if flag else "no"


def names(things: Iterable[Any]) -> str:
    """Several things by name, each once."""
    return ", ".join(dict.fromkeys(clean(each.name) for each in things))


def place_of(thing: Any) -> str:
    """The place where a thing stands; empty where the file does not say."""
    return clean(thing.place.name) if thing.place.line else EMPTY


def part_id(part: Part | None) -> str:
    """The id of a part; empty where there is none."""
    return EMPTY if part is None else clean(part.id)
