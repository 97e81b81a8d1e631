"""A schedule made of columns that each know how to fill their own cell."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple

from coordination.schedules.facts import EMPTY
from coordination.schedules.kinds import Column, Schedule

#: Where cells come from; `ON_SITE` is for boxes that are filled in by hand.
FILE, PARTS, STUDY, FINDINGS, ON_SITE = "system file", "parts", "study", "findings", "on site"


class Field(NamedTuple):
    """A column, and what stands in it for one subject."""

    name: str
    purpose: str
    source: str
    cell: Callable[[Any], str]


def box(name: str, purpose: str) -> Field:
    """A column to be filled in by hand."""
    return Field(name, purpose, ON_SITE, lambda _: EMPTY)


def sheet(
    name: str, title: str, fields: Sequence[Field], subjects: Iterable[tuple[str, Any]]
) -> Schedule:
    """A row for each subject: (its name in the system file, what the cells are asked about)."""
    chosen = tuple(subjects)
    return Schedule(
        name,
        title,
        tuple(Column(field.name, field.purpose, field.source) for field in fields),
        tuple(tuple(field.cell(about) for field in fields) for _, about in chosen),
        tuple(subject for subject, _ in chosen),
    )
