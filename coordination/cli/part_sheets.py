"""Sheets in and out for `fusewright parts`: what they change, what is doubted, in words."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from typing import TYPE_CHECKING, Final

from coordination.cli.output import columns, emit, speaks_unicode
from coordination.report.tables import columns as drawn
from coordination.report.wording import clean

if TYPE_CHECKING:
    from catalogue.doubts import Doubt
    from catalogue.parts import Part
    from catalogue.sheets.changes import PartChange
    from catalogue.sheets.mapping import SheetMap
    from coordination.report.parts_types import DoubtEntry, ImportAnswer

#: Parts of one import whose figures are looked at; `parts doubts` looks at all.
LOOKED_AT: Final = 20_000
#: Lines of doubts and of changes that are printed of one import.
_SHOWN: Final = 200
_LONGEST: Final = 60


def parts_in(path: str, map_path: str | None, sheet: str | None) -> Iterator[Part]:
    """The parts of a file while it is read. Raises BadInput with every problem, at its end."""
    from catalogue.problems import SheetError
    from catalogue.sheets.reading import parts_of_file
    from coordination.cli.part_files import refused
    from coordination.reading.sheet_map import read_sheet_map

    using: SheetMap | None = read_sheet_map(map_path) if map_path else None
    try:
        yield from parts_of_file(path, using, sheet or "")
    except SheetError as error:
        raise refused(path, error, map_path or "") from error


class Watched:
    """Parts on their way, with what is doubted of them."""

    def __init__(self, parts: Iterable[Part]) -> None:
        self._parts = parts
        self.doubts: list[Doubt] = []
        self.count = 0

    def __iter__(self) -> Iterator[Part]:
        from catalogue.doubts import doubts_of

        for part in self._parts:
            self.count += 1
            if self.count <= LOOKED_AT:
                self.doubts.extend(doubts_of(part))
            yield part

    def text(self) -> str:
        """The doubts, a line each, and how many parts were not looked at."""
        text = doubts_text(self.doubts)
        if self.count > LOOKED_AT:
            left = f"{self.count - LOOKED_AT:,}"
            text += f"{left} parts were not looked at for doubts: fusewright parts doubts\n"
        return text


def doubts_text(doubts: Sequence[Doubt], most: int = _SHOWN) -> str:
    """The doubts, a line each; nothing for none."""
    lines = [f"doubt: {clean(str(doubt))}\n" for doubt in doubts[:most]]
    if len(doubts) > most:
        lines.append(f"{len(doubts) - most} more doubts: fusewright parts doubts\n")
    return "".join(lines)


def emit_json(answer: object) -> None:
    """Print an answer for machines."""
    emit(json.dumps(answer, indent=2, ensure_ascii=not speaks_unicode()) + "\n")


def changes_answer(changes: Iterable[PartChange], doubts: Iterable[Doubt]) -> ImportAnswer:
    """What an import would change, for machines."""
    from catalogue.sheets.changes import CHANGED, NEW, SAME

    listed = list(changes)
    return {
        "new": [each.part.id for each in listed if each.what == NEW],
        "changed": [
            {
                "id": each.part.id,
                "fields": [
                    {"field": field, "before": before, "after": after}
                    for field, before, after in each.fields
                ],
            }
            for each in listed
            if each.what == CHANGED
        ],
        "same": sum(each.what == SAME for each in listed),
        "doubts": doubts_answer(doubts),
    }


def doubts_answer(doubts: Iterable[Doubt]) -> list[DoubtEntry]:
    """Doubts for machines."""
    return [
        {"part": part, "path": path, "found": found, "expected": expected, "source": source}
        for part, path, found, expected, source in doubts
    ]


def show_changes(changes: Iterable[PartChange], width: int | None) -> int:
    """Print what an import would change: counts, then new and changed parts field by field."""
    from catalogue.sheets.changes import CHANGED, NEW, SAME

    counts = {NEW: 0, CHANGED: 0, SAME: 0}
    rows: list[tuple[str, str, str, str, str]] = []
    left = 0
    for change in changes:
        counts[change.what] += 1
        if change.what == SAME:
            continue
        if len(rows) >= _SHOWN:
            left += 1
            continue
        fields = [_cells(*field) for field in change.fields] or [("", "", "")]
        for number, field in enumerate(fields):
            name = (clean(change.part.id), change.what) if number == 0 else ("", "")
            rows.append((*name, *field))
    emit(f"{', '.join(f'{count} {what}' for what, count in counts.items())}; nothing was written\n")
    if rows:
        headers = ("part", "", "field", "before", "after")
        emit("\n" + "".join(f"{line}\n" for line in drawn(rows, headers, "lllll", columns(width))))
    if left:
        emit(f"{left} more parts are new or changed\n")
    return 0


def _cells(column: str, before: str, after: str) -> tuple[str, str, str]:
    return column, short(before), short(after)


def short(text: str) -> str:
    """A cell for a table: on one line, cut where it is long, "-" for nothing."""
    text = clean(text) or "-"
    return text if len(text) <= _LONGEST else f"{text[: _LONGEST - 1]}…"


def write_sheet(path: str, parts: Iterable[Part]) -> int:
    """Write the parts in the format of the file's ending; how many.

    Raises CatalogueError, OSError; what was there before is then as it was.
    """
    from catalogue.sheets.reading import refuse_ending
    from catalogue.sheets.writing import as_csv, as_json, as_xlsx
    from coordination.cli.written import write_whole

    ending = refuse_ending(path)
    listed = list(parts)
    if ending == "xlsx":
        content = as_xlsx(listed)
    elif ending == "md":
        content = as_markdown(listed).encode()
    else:
        content = (as_json if ending == "json" else as_csv)(listed).encode()
    write_whole(path, content)
    return len(listed)


def as_markdown(parts: Sequence[Part]) -> str:
    """A table of the parts for people; nothing in it is taken for markup. It is not read back."""
    from catalogue.sheets.writing import table_of
    from coordination.report.tables import markdown_table

    heading, rows = table_of(parts)
    cells = [[clean(cell) for cell in row] for row in rows]
    return markdown_table(cells, heading, "l" * len(heading)) + "\n"


