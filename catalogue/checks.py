"""What no part can be, whoever states it: a negative rating, a minimum above its maximum ...

The same bounds as the CHECKs of the tables, in words; for sheets, files and parts made by code.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import Field
from datetime import date
from itertools import pairwise
from math import isfinite
from typing import Any, Final

from catalogue.curve_checks import curve_problems
from catalogue.layout import described, list_columns, rows_of
from catalogue.parts import Curve, Part
from catalogue.problems import FieldProblem
from catalogue.quantities import GAUGE_TOLERANCE, LARGEST, QuantityError, awg_area

#: Anything else is kept as it came, and made harmless where it is shown or exported.
_NO_TEXT: Final = re.compile("[\0\ud800-\udfff]")
_HOTTEST: Final = 2000.0
_LONGEST_ID: Final = 100
_LONGEST_TEXT: Final = 2_000_000


def problems_of(part: Part) -> tuple[FieldProblem, ...]:
    """Everything that is wrong with a part's values; empty for a part that may be kept."""
    return tuple(_problems_of(part))


def _problems_of(part: Part) -> Iterator[FieldProblem]:
    yield from _id_problems(part.id)
    for field in described(part.kind):
        value = getattr(part, field.name)
        if value is not None and value != ():
            yield from _field_problems(field, value, part)
    yield from _successor_problems(part)
    area, awg = getattr(part, "area", None), getattr(part, "awg", None)
    if awg is not None:
        yield from _gauge_problems(area, awg)


def _id_problems(part_id: str) -> Iterator[FieldProblem]:
    if not part_id or part_id != part_id.strip() or len(part_id) > _LONGEST_ID:
        yield FieldProblem("id", f"an id has 1 to {_LONGEST_ID} characters, no blank at an end")
    elif not part_id.isprintable():
        yield FieldProblem("id", f"the id {part_id!a} has characters that cannot be printed")


def _successor_problems(part: Part) -> Iterator[FieldProblem]:
    if part.successor is None:
        return
    if part.status != "retired":
        yield FieldProblem("successor", "only a retired part has a successor")
    if part.successor == part.id:
        yield FieldProblem("successor", "a part is not its own successor")
    for problem in _id_problems(part.successor):
        yield FieldProblem("successor", f"successor: {problem.what}")


def _field_problems(field: Field[Any], value: Any, part: Part) -> Iterator[FieldProblem]:
    name, shape = field.name, field.metadata["shape"]
    if shape == "quantity":
        yield from _size(name, value, field.metadata["dimension"])
    elif shape == "band":
        yield from _band(field, value, part.kind)
    elif shape == "mapping":
        for column, dimension in field.metadata["columns"]:
            yield from _size(f"{name}.{column}", getattr(value, column), dimension)
    elif shape == "discharge":
        yield from _discharge(name, value)
    elif shape in ("mappings", "pairs", "curve"):
        yield from _list(field, part)
    elif shape == "whole":
        if not 1 <= value <= 10_000:
            yield FieldProblem(name, f"{name} must be 1 to 10000, not {value}")
    else:
        yield from _word(field, value)


def _size(path: str, value: float, dimension: str) -> Iterator[FieldProblem]:
    """A temperature on this side of melting; anything else positive and finite."""
    if dimension == "temperature":
        if not -273.15 < value <= _HOTTEST:
            yield FieldProblem(path, f"{path} must be a temperature up to {_HOTTEST:g} °C")
    elif dimension in ("ratio", "factor"):
        if not 0 < value <= 10:
            yield FieldProblem(path, f"{path} must be above 0 and at most 10 (1000 %)")
    elif not (isfinite(value) and 0 < value <= LARGEST):
        yield FieldProblem(path, f"{path} must be positive")


def _band(field: Field[Any], value: Any, kind: str) -> Iterator[FieldProblem]:
    name = field.name
    # A device may be taken to have no resistance at best; a battery or a cable has some.
    least_is_zero = name == "resistance" and kind != "battery"
    low_fits = value.min >= 0 if least_is_zero else value.min > 0
    if not (isfinite(value.min) and isfinite(value.max) and value.max <= LARGEST):
        yield FieldProblem(name, f"{name} must be finite")
    elif not low_fits:
        bound = "zero or more" if least_is_zero else "positive"
        yield FieldProblem(f"{name}.min", f"{name}.min must be {bound}")
    elif value.min > value.max:
        yield FieldProblem(name, f"{name}.min is above {name}.max")


def _discharge(name: str, value: Any) -> Iterator[FieldProblem]:
    if value.continuous is None and value.peak is None:
        yield FieldProblem(name, f"{name} states neither continuous nor peak")
    if value.continuous is not None:
        yield from _size(f"{name}.continuous", value.continuous, "current")
    if value.peak is not None:
        yield from _size(f"{name}.peak.current", value.peak.current, "current")
        yield from _size(f"{name}.peak.time", value.peak.time, "time")


def _list(field: Field[Any], part: Part) -> Iterator[FieldProblem]:
    name = field.name
    if field.metadata["shape"] == "curve":
        yield from _curve(field, getattr(part, name), getattr(part, "rated_current", None))
        return
    columns = field.metadata["columns"]
    rows = rows_of(field, part)
    for row in rows:
        for column, dimension in columns:
            yield from _size(f"{name}.{row['position']}.{column}", row[column], dimension)
    first = list_columns(field)[0]
    stated = [row[first] for row in rows]
    if name != "intermittent" and len(set(stated)) != len(stated):
        yield FieldProblem(name, f"{name} states one {first} twice")
    elif name == "derating" and not _falls(getattr(part, name)):
        what = "temperatures must rise from row to row, and factors must not"
        yield FieldProblem(name, f"{name}: {what}")


def _curve(field: Field[Any], curve: Curve, rated_current: float | None) -> Iterator[FieldProblem]:
    names = {side: stated for stated, side in field.metadata["columns"]}
    sound = True
    for side, said in names.items():
        for number, (current, time) in enumerate(getattr(curve, side)):
            path = f"{field.name}.{said}.{number}"
            for problem in (
                *_size(f"{path}.current", current, "current"),
                *_size(f"{path}.time", time, "time"),
            ):
                sound = False
                yield problem
    if sound:
        yield from curve_problems(curve, names, rated_current)


def _falls(points: Sequence[tuple[float, float]]) -> bool:
    """Whether the first of each pair rises and the second never does."""
    return all(
        before[0] < after[0] and before[1] >= after[1]
        for before, after in pairwise(points)
    )


def _word(field: Field[Any], value: Any) -> Iterator[FieldProblem]:
    """A text, a choice, a date or a flag."""
    name, shape = field.name, field.metadata["shape"]
    if shape == "choice" and value not in field.metadata["choices"]:
        yield FieldProblem(name, f"{name} must be one of: {', '.join(field.metadata['choices'])}")
    elif shape == "date" and not _is_date(value):
        yield FieldProblem(name, f"{value[:40]!r} is no date", "write YYYY-MM-DD: 2026-03-02")
    elif shape == "text":
        yield from _text(name, value)


def _text(name: str, value: str) -> Iterator[FieldProblem]:
    if not value.strip(" \t\r\n") or len(value) > _LONGEST_TEXT:
        yield FieldProblem(name, f"{name} is blank or longer than {_LONGEST_TEXT} characters")
    elif not value.isprintable() and _NO_TEXT.search(value):
        yield FieldProblem(name, f"{name} has a character that no file can hold: NUL, half a sign")


def _is_date(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _gauge_problems(area: float | None, awg: str) -> Iterator[FieldProblem]:
    try:
        nominal = awg_area(awg)
    except QuantityError as error:
        yield FieldProblem("awg", error.message, error.hint)
        return
    if area is not None and abs(area / nominal - 1) > GAUGE_TOLERANCE:
        what = f"area {area * 1e6:.3g} mm² is not that of {awg} AWG, {nominal * 1e6:.3g} mm²"
        yield FieldProblem("area", what)
