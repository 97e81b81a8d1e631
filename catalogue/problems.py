"""What can be wrong with a part or with a sheet of parts, as values: all of it at once."""

from __future__ import annotations

from catalogue.errors import CatalogueError
from catalogue.frozen import dataclass


@dataclass(frozen=True, slots=True)
class FieldProblem:
    """One thing wrong with a part: the field's path ("resistance.min"), what, and a hint."""

    path: str
    what: str
    hint: str = ""


@dataclass(frozen=True, slots=True)
class SheetProblem:
    """One thing wrong in a sheet: row (the heading is row 1; 0: the sheet), column, what, hint.

    sheet  -- name of the sheet in a workbook; empty elsewhere
    letter -- the column as a spreadsheet calls it: "C"; empty where it is no column of a sheet
    at     -- line and column in the map that asked for it; (0, 0): the sheet is at fault
    """

    row: int
    column: str
    what: str
    hint: str = ""
    sheet: str = ""
    letter: str = ""
    at: tuple[int, int] = (0, 0)

    @property
    def place(self) -> str:
        """The column in words: "column C (rated_current)"; empty for a whole row."""
        if not self.letter:
            return f"column {self.column}" if self.column else ""
        return f"column {self.letter}" + (f" ({self.column})" if self.column else "")

    def __str__(self) -> str:
        row = f"row {self.row}" if self.row else "the sheet"
        where = ", ".join(filter(None, (self.sheet and f"sheet {self.sheet}", row, self.place)))
        return f"{where}: {self.what}" + (f"; {self.hint}" if self.hint else "")


class SheetError(CatalogueError):
    """A sheet that was refused as a whole; carries every problem found in it."""

    def __init__(self, problems: tuple[SheetProblem, ...]) -> None:
        super().__init__(f"{len(problems)} problem(s) in the sheet; nothing was changed")
        self.problems = problems
