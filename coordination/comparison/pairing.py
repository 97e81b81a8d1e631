"""Verdicts before and after, side by side: the same rule on the same subject."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Generic, NamedTuple, Protocol, TypeVar


class Judged(Protocol):
    """What is needed of a verdict: a finding has it, and so has one that was read back."""

    @property
    def rule(self) -> str: ...
    @property
    def subject(self) -> str: ...
    @property
    def verdict(self) -> str: ...


V = TypeVar("V", bound=Judged)


class Change(NamedTuple, Generic[V]):
    """What a rule says of a subject, before and after; None: nothing."""

    before: V | None
    after: V | None

    @property
    def verdicts(self) -> tuple[str, str]:
        """Both verdicts; empty where there is none."""
        return (
            "" if self.before is None else self.before.verdict,
            "" if self.after is None else self.after.verdict,
        )


def paired(before: Iterable[V], after: Iterable[V]) -> Iterator[Change[V]]:
    """Every rule and subject of both, by rule, then subject."""
    old = {(each.rule, each.subject): each for each in before}
    new = {(each.rule, each.subject): each for each in after}
    return (Change(old.get(key), new.get(key)) for key in sorted({*old, *new}))


def other_verdicts(before: Iterable[V], after: Iterable[V]) -> tuple[Change[V], ...]:
    """Those whose verdict is another."""
    pairs = ((each, each.verdicts) for each in paired(before, after))
    return tuple(each for each, (was, now) in pairs if was != now)
