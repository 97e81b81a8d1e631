"""What a pack adds beside rules: options and fields for the file, ratings, sections of the report.

Data only; `vocabulary` hands options and fields to reading, the report prints sections.
"""

from __future__ import annotations

from typing import Any, Literal

from catalogue.frozen import dataclass
from coordination.trace import Source

#: What an option or a field may hold; a quantity has a dimension, a choice its words.
Shape = Literal["flag", "choice", "quantity", "text", "whole", "date"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Option:
    """One thing that a pack asks of a system file, under `options: {pack: {name: value}}`.

    name      -- in words with underscores
    meaning   -- the question it answers, for messages and cards
    dimension -- of a quantity: current, voltage, length, energy, ...; choices -- words of a choice
    default   -- where the file does not state it: in SI; None: unstated, and rules must ask
    """

    name: str
    shape: Shape
    meaning: str
    dimension: str = ""
    choices: tuple[str, ...] = ()
    default: Any = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PartField:
    """A field that a pack adds to a kind of part, written `pack.name: value` in `parts:`.

    kind -- of part: fuse, breaker, cable, busbar, disconnect, channel, battery; the rest as Option.
    Rules find its value in `part.extra["pack.name"]`, where the file states it.
    """

    kind: str
    name: str
    shape: Shape
    meaning: str
    dimension: str = ""
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StandardRatings:
    """Ratings [A] that a code lists for devices, rising: what "the next size up" means there."""

    name: str
    source: Source
    ratings: tuple[float, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """Something a pack adds to the end of a report: paragraphs, then one table.

    headings -- of the table's columns; rows -- its cells, as many in each as headings
    """

    title: str
    paragraphs: tuple[str, ...] = ()
    headings: tuple[str, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
