"""Keeps a spreadsheet from taking a cell of a CSV file for a formula, and loses nothing by it."""

from __future__ import annotations

from typing import Final

_FORMULA: Final = ("=", "+", "-", "@", "\t", "\r", "'")


def guarded(cell: str) -> str:
    """The cell as written to a sheet: no spreadsheet takes it for a formula."""
    return f"'{cell}" if cell.startswith(_FORMULA) else cell


def unguarded(cell: str) -> str:
    """The cell as it was before `guarded`."""
    return cell[1:] if cell[:1] == "'" and cell[1:].startswith(_FORMULA) else cell
