"""Makes a part from what a sheet or a file states as text, with everything that is wrong with it.

`stated` is plain data: a text for a quantity, a mapping for a band or a record, a list for rows.
Where the text came from (row, column, line) is the caller's business; problems name field paths.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import Field
from typing import Any, Final

from catalogue.checks import problems_of
from catalogue.layout import BETWEEN, RECORDS, described
from catalogue.near_miss import hint_of
from catalogue.parts import KINDS, Band, CurrentFor, Curve, Discharge, Part
from catalogue.problems import FieldProblem
from catalogue.quantities import QuantityError, awg_area, parse

#: Share by which a battery's resistance may lie under and over a single stated value.
BAND_UNDER: Final = 0.15
BAND_OVER: Final = 0.60
#: How a band that was widened so is marked in `written["resistance.assumed"]`.
ASSUMED: Final = "-15 % / +60 %"

_FLAGS = {"yes": True, "true": True, "no": False, "false": False}


def build(
    part_id: str, kind: str, stated: Mapping[str, Any], origin: str = "shop"
) -> tuple[Part | None, tuple[FieldProblem, ...]]:
    """The part, or None with all that is wrong; a problem's path is "resistance.min" or the like.

    A cable's area is taken from its gauge where only that is stated; a battery's single resistance
    is widened to the band that is usual for it, and marked so.
    """
    if kind not in KINDS:
        hint = hint_of(kind, KINDS)
        return None, (FieldProblem("kind", f"{kind!r} is no kind of part", hint or _kinds()),)
    reader = _Reader()
    known = {field.name: field for field in described(kind)}
    for name in stated:
        if name not in known:
            reader.complain(name, f"a {kind} has no field {name!r}", hint_of(name, known))
    values = {
        name: reader.field(field, stated[name])
        for name, field in known.items()
        if stated.get(name) is not None
    }
    reader.derive(kind, values)
    if reader.problems:
        return None, tuple(reader.problems)
    part = KINDS[kind](id=part_id, kind=kind, origin=origin, written=reader.written, **values)
    found = problems_of(part)
    return (None if found else part), found


def _kinds() -> str:
    return f"kinds are {', '.join(KINDS)}"


class _Reader:
    """Reads the fields of one part, noting what is wrong and how each quantity was written."""

    def __init__(self) -> None:
        self.problems: list[FieldProblem] = []
        self.written: dict[str, str] = {}

    def complain(self, path: str, what: str, hint: str = "") -> None:
        self.problems.append(FieldProblem(path, what, hint))

    def field(self, field: Field[Any], stated: Any) -> Any:
        """The value of one field; None after a complaint."""
        name, shape, meta = field.name, field.metadata["shape"], field.metadata
        if shape == "quantity":
            return self.quantity(name, stated, meta["dimension"])
        if shape == "band":
            return self.band(name, stated, meta["dimension"])
        if shape == "mapping":
            return self.record(name, stated, meta["columns"])
        if shape == "discharge":
            return self.discharge(name, stated)
        if shape == "curve":
            return self.curve(name, stated, meta["columns"])
        if shape in ("mappings", "pairs"):
            return self.rows(name, stated, meta["columns"], pairs=shape == "pairs")
        if not isinstance(stated, str):
            return self.complain(name, f"{name} wants a text, not {type(stated).__name__}")
        return self.word(name, shape, stated, meta)

    def word(self, name: str, shape: str, stated: str, meta: Mapping[str, Any]) -> Any:
        """A text, a choice, a date, a flag or a whole number."""
        if shape == "choice" and stated not in meta["choices"]:
            hint = hint_of(stated, meta["choices"]) or f"one of: {', '.join(meta['choices'])}"
            return self.complain(name, f"{stated[:40]!r} is no {name} known here", hint)
        if shape == "flag":
            if stated.lower() not in _FLAGS:
                return self.complain(name, f"{name} wants yes or no, not {stated[:40]!r}")
            return _FLAGS[stated.lower()]
        if shape == "whole":
            if not (stated.isascii() and stated.isdigit() and len(stated) < 9):
                return self.complain(name, f"{name} wants a whole number, not {stated[:40]!r}")
            return int(stated)
        return stated

    def quantity(self, path: str, stated: Any, dimension: str) -> Any:
        if not isinstance(stated, str):
            return self.complain(path, f"{path} wants a quantity, not {type(stated).__name__}")
        try:
            value = parse(stated, dimension)
        except QuantityError as error:
            return self.complain(path, error.message, error.hint)
        self.written[path] = stated.strip()
        return value

    def derive(self, kind: str, values: dict[str, Any]) -> None:
        """Add what follows from how the part was stated."""
        if kind == "cable" and isinstance(values.get("awg"), str):
            size = values["awg"] = values["awg"].strip().removesuffix("AWG").strip()
            self.written["awg"] = size
            if values.get("area") is None:
                values["area"] = self.gauge(size)
                self.written["area"] = f"{size} AWG"
        if kind == "battery" and values.get("resistance") and "resistance" in self.written:
            stated = values["resistance"].min
            values["resistance"] = Band(stated * (1 - BAND_UNDER), stated * (1 + BAND_OVER))
            del self.written["resistance.min"], self.written["resistance.max"]
            self.written["resistance.assumed"] = ASSUMED

    def gauge(self, size: str) -> float | None:
        try:
            return awg_area(size)
        except QuantityError as error:
            self.complain("awg", error.message, error.hint)
            return None

    def band(self, name: str, stated: Any, dimension: str) -> Band | None:
        """{min, max}, or one text for both."""
        if isinstance(stated, str):
            value = self.quantity(name, stated, dimension)
            if value is None:
                return None
            self.written[f"{name}.min"] = self.written[f"{name}.max"] = self.written[name]
            return Band(value, value)
        found = self._named(name, stated, (("min", dimension), ("max", dimension)))
        return None if found is None else Band(*found)

    def record(self, name: str, stated: Any, columns: Any) -> Any:
        found = self._named(name, stated, columns)
        if found is None:
            return None
        return RECORDS[tuple(column for column, _ in columns)](*found)

    def _named(self, path: str, stated: Any, columns: Any) -> list[float] | None:
        """The values of a mapping that has exactly these columns."""
        names = [column for column, _ in columns]
        if not isinstance(stated, Mapping):
            self.complain(path, f"{path} wants {' and '.join(names)}")
            return None
        for key in stated:
            if key not in names:
                self.complain(f"{path}.{key}", f"{path} has no {key!r}", hint_of(str(key), names))
        found = []
        for column, dimension in columns:
            if column not in stated:
                self.complain(path, f"{path} lacks its {column}")
            else:
                found.append(self.quantity(f"{path}.{column}", stated[column], dimension))
        whole = len(found) == len(names) and None not in found
        return found if whole else None

    def discharge(self, name: str, stated: Any) -> Discharge | None:
        if not isinstance(stated, Mapping) or not stated.keys() <= {"continuous", "peak"}:
            self.complain(name, f"{name} wants continuous and peak")
            return None
        continuous = peak = None
        if stated.get("continuous") is not None:
            continuous = self.quantity(f"{name}.continuous", stated["continuous"], "current")
        if stated.get("peak") is not None:
            columns = (("current", "current"), ("time", "time"))
            found = self._named(f"{name}.peak", stated["peak"], columns)
            peak = None if found is None else CurrentFor(*found)
        return Discharge(continuous, peak)

    def curve(self, name: str, stated: Any, columns: Any) -> Curve | None:
        sides = dict(columns)
        words = [*sides, *(["tolerance"] if "average_melt" in sides else []), "between"]
        if not isinstance(stated, Mapping) or not stated.keys() <= set(words):
            self.complain(name, f"{name} wants {', '.join(words)}")
            return None
        pair = (("current", "current"), ("time", "time"))
        found: dict[str, Any] = {
            sides[side]: self.rows(f"{name}.{side}", points, pair, pairs=True)
            for side, points in stated.items()
            if points and side in sides
        }
        if stated.get("tolerance") is not None:
            found["tolerance"] = self.quantity(f"{name}.tolerance", stated["tolerance"], "factor")
        between = stated.get("between")
        if between is not None and between not in BETWEEN:
            hint = hint_of(str(between)[:40], BETWEEN) or f"one of: {', '.join(BETWEEN)}"
            self.complain(f"{name}.between", f"{str(between)[:40]!r} is no {name}.between", hint)
        if not found and between is None:
            return None
        return Curve(**found, gates=between == BETWEEN[1])

    def rows(self, path: str, stated: Any, columns: Any, *, pairs: bool) -> tuple[Any, ...]:
        """A list of records, or of pairs [a, b]."""
        if not isinstance(stated, list | tuple):
            self.complain(path, f"{path} wants a list")
            return ()
        names = tuple(column for column, _ in columns)
        made = []
        for number, item in enumerate(stated):
            place = f"{path}.{number}"
            if pairs and isinstance(item, list | tuple):
                if len(item) != len(names):
                    self.complain(place, f"{place} wants {' and '.join(names)}")
                    continue
                item = dict(zip(names, item, strict=True))
            found = self._named(place, item, columns)
            if found is not None:
                made.append(tuple(found) if pairs else RECORDS[names](*found))
        return tuple(made)
