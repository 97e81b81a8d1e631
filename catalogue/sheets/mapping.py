"""How a sheet with headings of its own is read: which heading is which field, and what is constant.

Made from a file by whoever reads files with places; `heading` uses it.
"""

from __future__ import annotations

from collections.abc import Mapping as Dictionary
from types import MappingProxyType
from typing import NamedTuple


class Target(NamedTuple):
    """What a heading means.

    column -- "id", "kind", or a column of `leaves.known_columns`
    unit   -- of its bare numbers; empty: cells have their own
    at     -- the voltage of an interrupt rating that has a column to itself: "32 V"
    line, place -- where the map says so
    """

    column: str
    unit: str = ""
    at: str = ""
    line: int = 0
    place: int = 0


class SheetMap(NamedTuple):
    """Headings to targets, values that every row has, and headings that are left aside.

    sheet   -- the sheet of a workbook; empty: the only one
    heading -- the row that names the columns
    """

    columns: Dictionary[str, Target] = MappingProxyType({})
    constant: Dictionary[str, str] = MappingProxyType({})
    ignore: Dictionary[str, tuple[int, int]] = MappingProxyType({})
    sheet: str = ""
    heading: int = 1
