"""What a part or the file states, as values that carry their origin; the rest is unknown."""

from __future__ import annotations

from typing import Any

from coordination.rules import Derived, Source, Unknown, Value, given

#: Figures kept: many elements are made of one part.
MOST_KEPT = 4096
#: With each its part, or another one could come to have its id.
_kept: dict[tuple[int, str, str, str], tuple[Any, Value]] = {}


def stated(part: Any, field: str, quantity: str, symbol: str, unit: str) -> Value:
    """A rating of a part; Unknown, naming part and field, where the part does not state it.

    field -- its path: "rated_current", "emf.max"
    """
    key = (id(part), field, quantity, symbol)
    kept = _kept.get(key)
    if kept is None:
        if len(_kept) >= MOST_KEPT:
            _kept.clear()
        kept = _kept[key] = (part, _stated(part, field, quantity, symbol, unit))
    return kept[1]


def _stated(part: Any, field: str, quantity: str, symbol: str, unit: str) -> Value:
    value = part
    for name in field.split("."):
        value = getattr(value, name, None)
    if value is None:
        name = part.id if part is not None else "part"
        return Unknown(quantity, (f"{name}: {field}",))
    source = Source("part data", clause=f"{part.id}: {field}")
    return given(quantity, symbol, value, unit, source, part.written.get(field, ""))


def written(subject: Any, field: str, quantity: str, symbol: str, unit: str) -> Value:
    """A figure the system file states for a subject; Unknown, naming both, where it does not."""
    value = getattr(subject, field, None)
    if value is None:
        return Unknown(quantity, (f"{subject.name}: {field}",))
    source = Source("system file", clause=f"{subject.name}: {field}")
    return given(quantity, symbol, value, unit, source, subject.written.get(field, ""))


def renamed(value: Value, symbol: str) -> Value:
    """The same figure under the symbol that a formula uses for it."""
    if isinstance(value, Unknown):
        return value
    return Derived(
        value.quantity, symbol, value.value, value.unit,
        value.formula, value.inputs, value.source, value.written,
    )  # fmt: skip
