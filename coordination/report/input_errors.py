"""Everything wrong with an input, one line each: file:line:column, what, what is allowed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.errors import Problem


def input_errors(problems: tuple[Problem, ...]) -> str:
    """All problems in the order of their places, then how many; ending in a newline."""
    ordered = sorted(problems, key=lambda problem: (problem.file, problem.line, problem.column))
    lines = [_words(problem) for problem in ordered]
    if len(lines) > 1:
        lines.append(f"{len(lines)} problems; nothing was checked.")
    return "\n".join(lines) + "\n"


def _words(problem: Problem) -> str:
    where = ":".join(map(str, filter(None, (problem.file, problem.line, problem.column))))
    allowed = f"; allowed: {problem.allowed}" if problem.allowed else ""
    near = f"; did you mean {problem.near_miss!r}?" if problem.near_miss else ""
    return clean(f"{where}: {problem.what}{allowed}{near}")
