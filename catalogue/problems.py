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
    """One thing wrong in a sheet: row (the heading is row 1; 0: the sheet), column, what, hint."""

    row: int
    column: str
    what: str
    hint: str = ""

    def __str__(self) -> str:
        place = f"row {self.row}" if self.row else "the sheet"
        column = f", column {self.column}" if self.column else ""
        return f"{place}{column}: {self.what}" + (f"; {self.hint}" if self.hint else "")


class SheetError(CatalogueError):
    """A sheet that was refused as a whole; carries every problem found in it."""

    def __init__(self, problems: tuple[SheetProblem, ...]) -> None:
        super().__init__(f"{len(problems)} problem(s) in the sheet; nothing was changed")
        self.problems = problems
