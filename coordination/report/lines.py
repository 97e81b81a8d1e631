"""Lays words out in lines of a given width: wrapped text, hanging labels, aligned steps.

Knows widths, not findings.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from coordination.report.block import StepRow

#: Narrowest text that is laid out at all; a narrower terminal breaks lines itself.
NARROWEST = 40

#: Columns left for words beside an indent, however narrow the text.
_ROOM = 8

#: A number and its unit stay on one line.
_NO_BREAK = "\u00a0"
_UNIT = re.compile(r"(?<=\d) (?=[A-Za-zµΩ%°][A-Za-zµΩ²/·]{0,3}(?![a-z]))")


def wrapped(text: str, width: int, indent: str = "", hanging: str | None = None) -> list[str]:
    """The text in lines no longer than `width`; later lines start with `hanging`.

    A word longer than a line is broken; a number is never parted from its unit.
    """
    if len(indent) + len(text) <= width:
        return [f"{indent}{text}".rstrip()]
    hanging = indent if hanging is None else hanging
    room = max(width, len(hanging) + _ROOM)
    lines, line, start = [], indent, len(indent)
    for word in _UNIT.sub(_NO_BREAK, text).split(" "):
        blank = " " if len(line) > start else ""
        if blank and len(line) + 1 + len(word) > room:
            lines.append(line)
            line, start, blank = hanging, len(hanging), ""
        line += blank + word
        while len(line) > room:
            lines.append(line[:room])
            line, start = hanging + line[room:], len(hanging)
    return [each.replace(_NO_BREAK, " ").rstrip() for each in (*lines, line)]


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
    first, *rest = wrapped(step.name, names)
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
