"""Reads the tables beside it and writes figures as a document would: "405 A", "2.5 mΩ"."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, Final, NamedTuple

#: When the tables were last gone through.
REVIEWED: Final = "2026-11-25"
#: Words of a table's source for a figure that nobody has seen in print here.
_UNREAD: Final = ("from memory", "common practice", "invented", "by analogy", "second-hand")

Row = Mapping[str, str]


class Draft(NamedTuple):
    """A part to be: its id, its kind, and its fields as text (see `building.build`)."""

    id: str
    kind: str
    stated: dict[str, Any]


def rows(name: str) -> list[Row]:
    """The rows of a table, by column."""
    with (Path(__file__).parent / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def ratings(row: Row) -> Iterator[tuple[str, float]]:
    """Each rating of a family [A], as text and number."""
    return ((text, float(text)) for text in row["ratings_A"].split(";"))


def applies(row: Row, rating: float) -> bool:
    """Whether a row for ratings "above" one and "to" another is for this rating."""
    return float(row["rating_above_A"]) < rating <= float(row["rating_to_A"])


def with_unit(value: float | str, unit: str) -> str:
    """A figure with its unit, without the noise of a float: "405 A"."""
    return f"{float(value):.6g} {unit}"


def provenance(document: str, page: str, sources: list[str]) -> dict[str, str]:
    """Document, page, date and status: reviewed only where every figure was read."""
    read = not any(word in source for source in sources for word in _UNREAD)
    status = "reviewed" if read else "draft"
    return {"document": document, "page": page, "reviewed": REVIEWED, "status": status}


def notes(*sentences: str) -> str:
    """Sentences for the field `notes`, each once."""
    return "; ".join(dict.fromkeys(sentence for sentence in sentences if sentence))


def curve_of(gates: list[Row], rating: float, fastest: str, slowest: str) -> dict[str, Any]:
    """The two sides of a curve from gates at multiples of the rating, by rising current."""
    sides: dict[str, Any] = {}
    for side, column in ((fastest, "t_min_s"), (slowest, "t_max_s")):
        points = sorted(
            (float(gate["multiple_of_rating"]) * rating, float(gate[column]))
            for gate in gates
            if gate[column]
        )
        if points:
            sides[side] = [[with_unit(a, "A"), with_unit(s, "s")] for a, s in points]
    return {**sides, "between": "gates"} if sides else {}
