"""The parts in a file, whatever its ending says it is: CSV, XLSX or JSON."""

from __future__ import annotations

from collections.abc import Iterator

from catalogue.errors import CatalogueError
from catalogue.near_miss import hint_of
from catalogue.parts import Part
from catalogue.sheets.grid import ENDINGS, ending_of, open_grid
from catalogue.sheets.mapping import SheetMap
from catalogue.sheets.rows import parts_of

#: Endings that `export` writes; of them markdown is for reading only.
WRITTEN = (*ENDINGS, "md")


def parts_of_file(path: str, using: SheetMap | None = None, sheet: str = "") -> Iterator[Part]:
    """The parts of a file, in its order, while it is read; those given before an error are void.

    using -- what the headings of a sheet mean; None: they are names of fields
    sheet -- the sheet of a workbook; empty: that of the map, or the only one
    Raises SheetError with every problem, CatalogueError, OSError.
    """
    if ending_of(path) == "json":
        if using is not None or sheet:
            raise CatalogueError(f"{path!r} is no sheet: a map or a sheet's name is not for it")
        from catalogue.sheets.as_json import parts_of_json

        return parts_of_json(path)
    return parts_of(open_grid(path, sheet or (using.sheet if using else "")), using)


def refuse_ending(path: str) -> str:
    """The format that a file to be written asks for. Raises CatalogueError for another."""
    ending = ending_of(path)
    if ending not in WRITTEN:
        hint = hint_of(ending, WRITTEN) if ending else ""
        said = f"{ending!r} is no format of an export" if ending else f"{path!r} has no ending"
        raise CatalogueError(f"{said}; {hint or 'write .csv, .xlsx, .json or .md'}")
    return ending
