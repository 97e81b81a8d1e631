"""Columns that hold one quantity where `cells` has a whole list or pair in a cell.

    resistance.min [mΩ]                     one end of a band
    breaking.current, breaking.voltage      one half of a pair
    interrupt_ratings.voltage [V]           one quantity of a row of a list: a row of the sheet each
    curve.min_melt.current [A]              one quantity of a point: a row of the sheet each
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any, NamedTuple

from catalogue.cells import columns_for, every_column
from catalogue.layout import described
from catalogue.parts import KINDS

_PAIR = (("current", "current"), ("time", "time"))


class Leaf(NamedTuple):
    """One quantity: the field, the way to it, its dimension, and whether rows repeat it.

    way -- keys below the field: ("min",), ("peak", "time"), ("min_melt", "current")
    """

    field: str
    way: tuple[str, ...]
    dimension: str
    repeated: bool

    @property
    def column(self) -> str:
        return ".".join((self.field, *self.way))


@cache
def leaves(kind: str) -> Mapping[str, Leaf]:
    """The leaf columns of a kind, by column."""
    found = [leaf for field in described(kind) for leaf in _leaves(field.name, field.metadata)]
    return {leaf.column: leaf for leaf in found}


def _leaves(name: str, meta: Any) -> list[Leaf]:
    shape = meta["shape"]
    if shape == "band":
        return [Leaf(name, (end,), meta["dimension"], False) for end in ("min", "max")]
    if shape == "mapping":
        return [Leaf(name, (column,), size, False) for column, size in meta["columns"]]
    if shape == "discharge":
        return [Leaf(name, ("peak", column), size, False) for column, size in _PAIR]
    if shape in ("mappings", "pairs"):
        return [Leaf(name, (column,), size, True) for column, size in meta["columns"]]
    if shape == "curve":
        return [
            Leaf(name, (said, column), size, True)
            for said, _ in meta["columns"]
            for column, size in _PAIR
        ]
    return []


@cache
def simple_dimensions(kind: str) -> Mapping[str, str]:
    """Columns of a kind whose cell is one quantity, or a band of it, with its dimension."""
    found = {
        field.name: field.metadata["dimension"]
        for field in described(kind)
        if field.metadata["shape"] in ("quantity", "band")
    }
    if "discharge.continuous" in columns_for(kind):
        found["discharge.continuous"] = "current"
    return found


@cache
def known_columns() -> Mapping[str, tuple[str, ...]]:
    """Every column that a sheet may have, beside id and kind, and the kinds that have it."""
    names = (*every_column(), *(column for kind in KINDS for column in leaves(kind)))
    return {
        name: tuple(kind for kind in KINDS if name in columns_for(kind) or name in leaves(kind))
        for name in dict.fromkeys(names)
    }


@cache
def dimensions(column: str) -> tuple[str, ...]:
    """What a bare number in that column can be, over all kinds; none where it takes no unit."""
    found = [
        leaves(kind)[column].dimension if column in leaves(kind) else simple.get(column, "")
        for kind in KINDS
        for simple in (simple_dimensions(kind),)
    ]
    return tuple(dict.fromkeys(each for each in found if each))


def state(stated: dict[str, Any], leaf: Leaf, text: str, number: int) -> str:
    """Put one quantity into what `building.build` reads; gives its path there.

    number -- which row of its list it belongs to, if it is of a list
    """
    if leaf.repeated:
        *way, last = leaf.way
        holder = stated.setdefault(leaf.field, {} if way else [])
        rows = holder.setdefault(way[0], []) if way else holder
        while len(rows) <= number:
            rows.append({})
        rows[number][last] = text
        return ".".join((leaf.field, *way, str(number), last))
    place = stated.setdefault(leaf.field, {})
    for step in leaf.way[:-1]:
        place = place.setdefault(step, {})
    place[leaf.way[-1]] = text
    return leaf.column
