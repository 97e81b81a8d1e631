"""Collects everything that is wrong in one file, with near misses; nothing stops at the first.

Matching is imported when the first unknown word is met, so that a good file does not pay for it.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final, Protocol

from coordination.errors import BadInput, Problem
from coordination.reading.text import quoted

#: Problems kept of one file; more than anybody mends in one go.
MOST: Final = 500
#: Near misses looked for in one file; each takes a while.
_MOST_SEARCHES: Final = 100
#: Likeness in per cent from which a word is offered as what may have been meant.
_LIKE: Final = 66
#: Lists of allowed words up to this many are shown whole.
_SHOWN: Final = 24


class Placed(Protocol):
    """Whatever stands at a line and column (1-based) of the file."""

    line: int
    column: int


class Notes:
    """The problems of one file, in the order in which they are found."""

    def __init__(self, file: str) -> None:
        self.file = file
        self._problems: list[Problem] = []
        self._left_out = 0
        self._searches = 0

    def say(self, at: Placed, what: str, allowed: str = "", near_miss: str = "") -> None:
        """Note one problem at the place of `at`."""
        if self.full():
            self._left_out += 1
            return
        self._problems.append(Problem(self.file, at.line, at.column, what, allowed, near_miss))

    def unknown(self, at: Placed, what: str, word: str, choices: Iterable[str]) -> None:
        """Note that `word` is none of `choices`, with the nearest of them if one is near."""
        words = [] if self.full() else sorted(set(choices))
        allowed = ", ".join(words) if len(words) <= _SHOWN else ""
        self.say(at, what, allowed, self.nearest(word, words))

    def nearest(self, word: str, choices: Iterable[str]) -> str:
        """The choice most like `word`; empty if none is near, or after many searches."""
        if self.tired() or self.full():
            return ""
        self._searches += 1
        from rapidfuzz import fuzz, process

        found = process.extractOne(
            word[:100], list(choices), scorer=fuzz.ratio, processor=str.lower, score_cutoff=_LIKE
        )
        return found[0] if found else ""

    def tired(self) -> bool:
        """Whether so many near misses were looked for that no more are."""
        return self._searches >= _MOST_SEARCHES

    def full(self) -> bool:
        """Whether there are so many problems that looking for more is idle."""
        return len(self._problems) >= MOST

    def raise_if_any(self) -> None:
        """Raises BadInput with every problem, sorted by place, if there is one."""
        if not self._problems:
            return
        problems = sorted(self._problems, key=lambda problem: (problem.line, problem.column))
        if self._left_out:
            what = f"{self._left_out} more problems are not listed"
            problems.append(Problem(self.file, 0, 0, what))
        raise BadInput(tuple(problems))


def name_problem(text: str) -> str:
    """What keeps `text` from being a name; empty if nothing does."""
    if not text.strip():
        return "the name is empty"
    if len(text) > 100:
        return f"the name {quoted(text)} is longer than 100 characters"
    if text != text.strip():
        return f"the name {quoted(text)} begins or ends with a blank"
    if not text.isprintable():
        odd = next(character for character in text if not character.isprintable())
        return f"the name {quoted(text)} holds U+{ord(odd):04X}, which does not show"
    return ""
