"""What a part or the file states, as values that carry their origin; the rest is unknown."""

from __future__ import annotations

from typing import Any

from coordination.rules import Source, Unknown, Value, given

#: Figures kept: many elements are made of one part.
MOST_KEPT = 4096
#: With each its part, or another one could come to have its id.
_kept: dict[tuple[int, str, str, str], tuple[Any, Value]] = {}


def rating(part: Any, field: str, quantity: str, symbol: str, unit: str) -> Value:
    """A figure of a part [unit]; Unknown, naming part and field, where it does not state it.

    field -- its path: "rated_current", "emf.max"
    """
    key = (id(part), field, quantity, symbol)
    kept = _kept.get(key)
    if kept is None:
        if len(_kept) >= MOST_KEPT:
            _kept.clear()
        kept = _kept[key] = (part, _rating(part, field, quantity, symbol, unit))
    return kept[1]


def _rating(part: Any, field: str, quantity: str, symbol: str, unit: str) -> Value:
    value = part
    for name in field.split("."):
        value = getattr(value, name, None)
    if value is None:
        name = part.id if part is not None else "part"
        return Unknown(quantity, (f"{name}: {field}",))
    source = Source("part data", f"{part.id}: {field}")
    return given(quantity, symbol, value, unit, source, part.written.get(field, ""))


def written(subject: Any, field: str, quantity: str, symbol: str, unit: str) -> Value:
    """A figure of the system file [unit]; Unknown, naming subject and field, where it is silent."""
    value = getattr(subject, field, None)
    if value is None:
        return Unknown(quantity, (f"{subject.name}: {field}",))
    source = Source("system file", f"{subject.name}: {field}")
    return given(quantity, symbol, value, unit, source, subject.written.get(field, ""))


def limit_of(source: Any, symbol: str, quantity: str = "largest output") -> Value:
    """Largest current [A] that a self-limiting source or a converter's output gives."""
    field = "current_limited" if hasattr(source, "current_limited") else "output_current"
    return written(source, field, f"{quantity} of {source.name}", symbol, "A")


def renamed(value: Value, symbol: str) -> Value:
    """The same figure under the symbol that a formula uses for it."""
    return value if isinstance(value, Unknown) else value.renamed(symbol)
