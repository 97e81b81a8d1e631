"""What a revision keeps of a part: all that was stated, as canonical JSON, and its SHA-256.

Canonical: keys sorted, no blanks, fields that are not stated left out, quantities as SI floats,
signs as they are (UTF-8). The same part has the same text in every catalogue and every version;
new fields of parts leave the text of old ones as it was. Standard library only.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import Field
from functools import cache
from hashlib import sha256
from operator import attrgetter
from typing import Any, Final

from catalogue.errors import CatalogueError
from catalogue.layout import RECORDS, SIDES, described, list_columns
from catalogue.parts import KINDS, Band, CurrentFor, Curve, Discharge, Part

_ENCODE: Final = json.JSONEncoder(
    ensure_ascii=False, allow_nan=False, sort_keys=True, separators=(",", ":")
).encode


def canonical(part: Part) -> str:
    """The part as canonical JSON. Raises ValueError for a number that is none."""
    plain: dict[str, Any] = {"id": part.id, "kind": part.kind}
    values_of, fields = _stated_fields(part.kind)
    for value, (name, field, plainly) in zip(values_of(part), fields, strict=True):
        if value is None or value == ():
            continue
        made = value if plainly is None else plainly(field, value)
        if made is not None:
            plain[name] = made
    if part.written:
        plain["written"] = dict(part.written)
    return _ENCODE(plain)


def digest(text: str) -> str:
    """SHA-256 of a canonical text, in hexadecimal."""
    return sha256(text.encode()).hexdigest()


def digest_of(part: Part) -> str:
    """SHA-256 of the part as canonical JSON, in hexadecimal: equal for parts that state the same.

    Neither the store it came from nor what rule packs added is part of it.
    """
    return digest(canonical(part))


def part_of(text: str, origin: str = "shop") -> Part:
    """The part of a canonical text: the inverse of `canonical`. Raises CatalogueError."""
    try:
        plain = json.loads(text)
        kind = plain.pop("kind")
        fields = {field.name: field for field in described(kind)}
        known = {"id": plain.pop("id"), "written": plain.pop("written", {})}
        values = {name: _value(fields[name], value) for name, value in plain.items()}
        return KINDS[kind](kind=kind, origin=origin, **known, **values)
    except (ValueError, LookupError, TypeError, AttributeError) as error:
        raise CatalogueError(f"a revision cannot be read: {error!r}") from error


@cache
def _stated_fields(kind: str) -> tuple[Any, tuple[tuple[str, Field[Any], Any], ...]]:
    """What gives the values of all fields; and of each name, field, and what makes plain data of
    its value (None: it is plain).
    """
    makers = {
        "quantity": _number, "band": _record, "mapping": _record, "mappings": _records,
        "pairs": _pairs, "discharge": _discharge, "curve": _curve, "flag": _flag,
    }  # fmt: skip
    names = (field.name for field in described(kind))
    return attrgetter(*names), tuple(
        (field.name, field, makers.get(field.metadata["shape"])) for field in described(kind)
    )


def _number(_: Field[Any], value: float) -> float:
    # The database keeps no negative zero.
    return float(value) + 0.0


def _flag(_: Field[Any], value: Any) -> bool:
    return bool(value)


def _record(field: Field[Any], value: Any) -> dict[str, float]:
    if field.metadata["shape"] == "band":
        return {"min": float(value.min) + 0.0, "max": float(value.max) + 0.0}
    return {name: float(getattr(value, name)) for name, _ in field.metadata["columns"]}


def _records(field: Field[Any], value: Any) -> list[dict[str, float]]:
    return [_record(field, item) for item in value]


def _points(rows: Any) -> list[list[float]]:
    return [[float(first) + 0.0, float(second) + 0.0] for first, second in rows]


def _pairs(_: Field[Any], value: Any) -> list[list[float]]:
    return _points(value)


def _discharge(_: Field[Any], value: Discharge) -> dict[str, Any]:
    plain: dict[str, Any] = {}
    if value.continuous is not None:
        plain["continuous"] = float(value.continuous)
    if value.peak is not None:
        plain["peak"] = {"current": float(value.peak.current), "time": float(value.peak.time)}
    return plain


def _curve(_: Field[Any], value: Curve) -> dict[str, Any] | None:
    plain: dict[str, Any] = {
        side: _points(getattr(value, side)) for side in SIDES if getattr(value, side)
    }
    if not plain:
        return None
    if value.gates:
        plain["gates"] = True
    if value.tolerance is not None:
        plain["tolerance"] = float(value.tolerance)
    return plain


def _value(field: Field[Any], plain: Any) -> Any:
    """A field's value from its plain data."""
    shape = field.metadata["shape"]
    if shape == "band":
        return Band(**plain)
    if shape == "mapping":
        return RECORDS[tuple(name for name, _ in field.metadata["columns"])](**plain)
    if shape == "mappings":
        make = RECORDS[list_columns(field)]  # type: ignore[index]
        return tuple(make(**row) for row in plain)
    if shape == "pairs":
        return tuple(tuple(row) for row in plain)
    if shape == "discharge":
        peak: Mapping[str, float] | None = plain.get("peak")
        return Discharge(plain.get("continuous"), CurrentFor(**peak) if peak else None)
    if shape == "curve":
        sides = {side: tuple(tuple(row) for row in plain.get(side, ())) for side in SIDES}
        return Curve(**sides, gates=plain.get("gates", False), tolerance=plain.get("tolerance"))
    return plain
