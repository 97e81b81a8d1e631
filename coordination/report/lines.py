"""Lays words out in lines of a given width: wrapped text, hanging labels, aligned steps.

Knows widths, not findings.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from coordination.report.block import StepRow

#: Narrowest text that is laid out at all; a narrower terminal breaks lines itself.
NARROWEST = 40

#: A number and its unit stay on one line.
_NO_BREAK = "\u00a0"
_UNIT = re.compile(r"(?<=\d) (?=[A-Za-zµΩ%°][A-Za-zµΩ²/·]{0,3}(?![a-z]))")


def wrapped(text: str, width: int, indent: str = "", hanging: str | None = None) -> list[str]:
    """The text in lines no longer than `width`; later lines start with `hanging`."""
    lines = textwrap.wrap(
        _UNIT.sub(_NO_BREAK, text),
        max(width, NARROWEST),
        initial_indent=indent,
        subsequent_indent=indent if hanging is None else hanging,
        break_on_hyphens=False,
    )
    return [line.replace(_NO_BREAK, " ") for line in lines] or [indent.rstrip()]


def labelled(rows: Iterable[tuple[str, str]], width: int, indent: str) -> Iterator[str]:
    """ "label   text" with the texts under each other; a row without text is left out."""
    kept = [(label, text) for label, text in rows if text]
    longest = max((len(label) for label, _ in kept), default=0)
    for label, text in kept:
        head = f"{indent}{label:<{longest}}  "
        yield from wrapped(text, width, head, " " * len(head))


def step_lines(steps: Sequence[StepRow], width: int, indent: str) -> Iterator[str]:
    """Name, value and working in three columns, "<- source" behind them or on a line below."""
    if not steps:
        return
    names = min(max(len(step.name) for step in steps), width // 3)
    values = min(max(len(step.value) for step in steps), width // 5)
    for step in steps:
        yield from _step(step, names, values, width, indent)


def _step(step: StepRow, names: int, values: int, width: int, indent: str) -> Iterator[str]:
    first, *rest = textwrap.wrap(step.name, names, break_on_hyphens=False) or [""]
    head = f"{indent}{first:<{names}}  {step.value:>{values}}  "
    under = " " * len(f"{indent}{'':<{names}}  {'':>{values}}  ")
    tail = f"<- {step.source}" if step.source else ""
    lines = wrapped(step.working or tail, width, head, under)
    if step.working and tail:
        if len(lines[-1]) + len(tail) + 2 <= width:
            lines[-1] += f"  {tail}"
        else:
            lines += wrapped(tail, width, under, under + "   ")
    yield from _beside(rest, lines, names, indent)


def _beside(rest: list[str], lines: list[str], names: int, indent: str) -> Iterator[str]:
    """Puts the rest of a long name into the blank left column of the following lines."""
    yield lines[0]
    for number, line in enumerate(lines[1:]):
        if number < len(rest):
            start = f"{indent}{rest[number]:<{names}}"
            line = start + line[len(start) :]
        yield line
    yield from (f"{indent}{name}" for name in rest[len(lines) - 1 :])
