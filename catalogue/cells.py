"""How a field of a part is written in a cell of a sheet, and read from it.

    a quantity       300 A
    bounds           2.7 mΩ to 5.1 mΩ
    a pair           400 A for 5 min        5 kA @ 32 V        91 % @ 40 °C
    a list           5 kA @ 32 V; 10 kA @ 14 V

A quantity stands as it was written; one that never was is written out exactly, in SI.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import Field
from typing import Any, Final

from catalogue.layout import BETWEEN, curve_keys, described, list_columns
from catalogue.parts import KINDS, Part
from catalogue.problems import FieldProblem
from catalogue.units import SI_UNITS

#: What stands between the two halves of a pair, and whether the second column comes first.
_JOINTS: Final[Mapping[tuple[str, ...], tuple[str, bool]]] = {
    ("current", "time"): (" for ", False),
    ("current", "voltage"): (" @ ", False),
    ("voltage", "current"): (" @ ", True),
    ("temperature", "factor"): (" @ ", True),
}
_PAIR: Final = (("current", "current"), ("time", "time"))


def columns_for(kind: str) -> tuple[str, ...]:
    """The columns of a kind's fields; a curve and a discharge have two."""
    return tuple(column for field in described(kind) for column in _columns(field))


def every_column() -> tuple[str, ...]:
    """The columns of all kinds, each once."""
    return tuple(dict.fromkeys(column for kind in KINDS for column in columns_for(kind)))


def _columns(field: Field[Any]) -> tuple[str, ...]:
    shape = field.metadata["shape"]
    if shape == "curve":
        return tuple(f"{field.name}.{key}" for key in curve_keys(field))
    if shape == "discharge":
        return tuple(f"{field.name}.{part}" for part, _ in field.metadata["columns"])
    return (field.name,)


def column_of(path: str) -> str:
    """The column in which a field path such as "curve.min_melt.0.time" stands."""
    first, _, rest = path.partition(".")
    return f"{first}.{rest.split('.')[0]}" if first in ("curve", "discharge") and rest else first


def to_cells(part: Part) -> dict[str, str]:
    """Every stated field of the part, by column."""
    cells = {}
    for field in described(part.kind):
        value = getattr(part, field.name)
        if value is not None and value != ():
            cells.update(_field_cells(field, value, part.written))
    return cells


def _field_cells(field: Field[Any], value: Any, written: Mapping[str, str]) -> dict[str, str]:
    name, meta = field.name, field.metadata
    shape = meta["shape"]
    if shape == "curve":
        cells = {
            f"{name}.{said}": _rows(f"{name}.{said}", getattr(value, side), _PAIR, written)
            for said, side in meta["columns"]
            if getattr(value, side)
        }
        if value.tolerance is not None:
            path = f"{name}.tolerance"
            cells[path] = _quantity(path, value.tolerance, "factor", written)
        return cells | ({f"{name}.between": BETWEEN[1]} if value.gates else {})
    if shape == "discharge":
        cells = {}
        if value.continuous is not None:
            path = f"{name}.continuous"
            cells[path] = _quantity(path, value.continuous, "current", written)
        if value.peak is not None:
            peak = (value.peak.current, value.peak.time)
            cells[f"{name}.peak"] = _pair(f"{name}.peak", peak, _PAIR, written)
        return cells
    return {name: _cell(field, value, written)}


def _cell(field: Field[Any], value: Any, written: Mapping[str, str]) -> str:
    name, meta = field.name, field.metadata
    shape = meta["shape"]
    if shape == "quantity":
        return _quantity(name, value, meta["dimension"], written)
    if shape == "band":
        if name in written:
            return written[name]
        ends = (("min", value.min), ("max", value.max))
        dimension = meta["dimension"]
        return " to ".join(_quantity(f"{name}.{end}", of, dimension, written) for end, of in ends)
    if shape == "flag":
        return "yes" if value else "no"
    if shape == "mapping":
        both = tuple(getattr(value, column) for column, _ in meta["columns"])
        return _pair(name, both, meta["columns"], written)
    if shape in ("mappings", "pairs"):
        names = list_columns(field)
        rows = [
            item if isinstance(item, tuple) else tuple(getattr(item, column) for column in names)
            for item in value
        ]
        return _rows(name, rows, meta["columns"], written)
    return str(value)


def _quantity(path: str, value: float, dimension: str, written: Mapping[str, str]) -> str:
    return written.get(path) or f"{value!r} {SI_UNITS[dimension]}".rstrip()


def _pair(path: str, values: Any, columns: Any, written: Mapping[str, str]) -> str:
    names = tuple(column for column, _ in columns)
    joint, turned = _JOINTS[names]
    halves = [
        _quantity(f"{path}.{column}", value, dimension, written)
        for value, (column, dimension) in zip(values, columns, strict=True)
    ]
    return joint.join(reversed(halves) if turned else halves)


def _rows(path: str, rows: Any, columns: Any, written: Mapping[str, str]) -> str:
    return "; ".join(
        _pair(f"{path}.{number}", row, columns, written) for number, row in enumerate(rows)
    )


def from_cells(kind: str, cells: Mapping[str, str]) -> tuple[dict[str, Any], list[FieldProblem]]:
    """What the cells state, as `building.build` wants it, and what is no pair or list in them."""
    stated: dict[str, Any] = {}
    problems: list[FieldProblem] = []
    for field in described(kind):
        for column in _columns(field):
            text = cells.get(column, "")
            if text.strip(" \t\r\n"):
                _state(stated, field, column, text, problems)
    return stated, problems


def _state(
    stated: dict[str, Any], field: Field[Any], column: str, text: str, problems: list[FieldProblem]
) -> None:
    name, shape, meta = field.name, field.metadata["shape"], field.metadata
    if shape == "curve":
        inner = column.split(".")[1]
        word = inner in ("tolerance", "between")
        held = text.strip() if word else _split_rows(column, text, _PAIR, problems)
        stated.setdefault(name, {})[inner] = held
    elif shape == "discharge":
        inner = column.split(".")[1]
        pair = inner == "peak"
        value = _split_pair(column, text, _PAIR, problems) if pair else text.strip()
        if value:
            stated.setdefault(name, {})[inner] = value
    elif shape in ("mappings", "pairs"):
        stated[name] = _split_rows(column, text, meta["columns"], problems)
    elif shape == "mapping":
        stated[name] = _split_pair(column, text, meta["columns"], problems) or None
    elif shape == "band" and " to " in text:
        low, _, high = text.partition(" to ")
        stated[name] = {"min": low.strip(), "max": high.strip()}
    else:
        stated[name] = text if shape == "text" else text.strip()


def _split_pair(
    column: str, text: str, columns: Any, problems: list[FieldProblem]
) -> dict[str, str]:
    names = tuple(name for name, _ in columns)
    joint, turned = _JOINTS[names]
    halves = [half.strip() for half in f" {text} ".split(joint)]
    if len(halves) != 2 or not all(halves):
        order = tuple(reversed(names)) if turned else names
        problems.append(FieldProblem(column, f"{text.strip()[:60]!r} wants {joint.join(order)}"))
        return {}
    return dict(zip(names, reversed(halves) if turned else halves, strict=True))


def _split_rows(
    column: str, text: str, columns: Any, problems: list[FieldProblem]
) -> list[dict[str, str]]:
    found = (_split_pair(column, row, columns, problems) for row in text.split(";"))
    return [row for row in found if row]
