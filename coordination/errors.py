"""What can be wrong with the user's input, as values with a place; all of a file's at once."""

from __future__ import annotations

from catalogue.frozen import dataclass


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong at one place of a file (line and column are 1-based; 0: the whole file)."""

    file: str
    line: int
    column: int
    what: str
    allowed: str = ""
    near_miss: str = ""


class FusewrightError(Exception):
    """Base of every error that is the user's to mend; shown without a traceback."""


class BadInput(FusewrightError):
    """The input could not be used (exit status 2); carries every problem found."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__(f"{len(problems)} problem(s) in the input")
        self.problems = problems


class OutOfRange(FusewrightError, ValueError):
    """A physics function was asked outside the range where its equation holds."""

    def __init__(self, name: str, value: float | str, bound: str) -> None:
        super().__init__(f"{name} = {value!r} must be {bound}")
        self.name, self.value, self.bound = name, value, bound
