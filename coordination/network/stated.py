"""Stated figures as traced values: a part's rating, a line of the file, or what is missing."""

from __future__ import annotations

from catalogue.parts import Part
from coordination.named import Named
from coordination.trace import Derived, Source, Unknown, Value


def of_part(
    part: Part, field: str, value: float | None, quantity: str, symbol: str, unit: str
) -> Value:
    """A part's figure in `unit`, or Unknown naming part and field."""
    if value is None:
        return Unknown(quantity, (f"{part.id}: {field.partition('.')[0]}",))
    where = f"{part.id}: {field}" + (f", line {part.line}" if part.line else "")
    source = Source("part data", where)
    return Derived(
        quantity, symbol, value, unit, source=source, written=part.written.get(field, "")
    )


def of_file(
    named: Named, field: str, value: float | None, quantity: str, symbol: str, unit: str
) -> Value:
    """A figure that the system file states of one thing, or Unknown naming thing and field."""
    if value is None:
        return Unknown(quantity, (f"{named.name}: {field}",))
    source = Source("system file", f"{named.name}: {field}, line {named.line}")
    return Derived(
        quantity, symbol, value, unit, source=source, written=named.written.get(field, "")
    )
