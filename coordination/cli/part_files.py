"""Where `fusewright parts add` takes parts from; every problem becomes a BadInput."""

from __future__ import annotations

from collections.abc import Iterable

from catalogue.parts import Part
from catalogue.problems import SheetError
from coordination.errors import BadInput, Problem


def parts_of_file(path: str) -> tuple[Part, ...]:
    """The parts of a YAML file with a section `parts:`, as in a system file. Raises BadInput."""
    from catalogue.store import open_catalogue
    from coordination.reading.nodes import Table, tree
    from coordination.reading.notes import Notes
    from coordination.reading.parts import read_parts
    from coordination.reading.reader import Reader
    from coordination.reading.text import decode, read_file

    notes = Notes(path)
    root = tree(decode(read_file(path), path), notes)
    entries = root.entries if isinstance(root, Table) else {}
    for name, (key, _) in entries.items():
        if name != "parts":
            notes.say(key, f"{name[:40]!r} is not read here", "parts")
    if "parts" not in entries:
        notes.say(root, "there is no section 'parts'", "parts: {<id>: {kind: ..., ...}}")
    if "parts" not in entries:
        notes.raise_if_any()
    with open_catalogue(None) as catalogue:
        reader = Reader(notes, catalogue)
        read_parts(reader, entries["parts"][1])
    notes.raise_if_any()
    return tuple(reader.parts.values())


def curve_of_sheet(
    catalogue: str | None, part_id: str, path: str, tolerance: str | None, between: str | None
) -> Part:
    """The shop's part with the curve of a CSV file. Raises BadInput, CatalogueError."""
    from catalogue.curve_sheet import with_curve

    try:
        return with_curve(catalogue, part_id, path, tolerance, between)
    except SheetError as error:
        raise refused(path, error) from error


def refused(path: str, error: SheetError, map_path: str = "") -> BadInput:
    """Every problem of a sheet, each at its row, or at its place in the map."""
    return BadInput(
        tuple(
            _problem(map_path, each.at[0], each.what, each.hint, each.at[1])
            if each.at[0]
            else _problem(
                f"{path}:{each.sheet}" if each.sheet else path,
                each.row,
                f"{each.place}: {each.what}" if each.place else each.what,
                each.hint,
            )
            for each in error.problems
        )
    )


def _problem(file: str, line: int, what: str, hint: str, column: int = 0) -> Problem:
    """A problem whose hint, if it is a near miss, is shown as one."""
    begin = "did you mean "
    if hint.startswith(begin):
        near = hint.removeprefix(begin).strip("?'")
        return Problem(file, line, column, what, near_miss=near)
    return Problem(file, line, column, f"{what}; {hint}" if hint else what)


def part_of_fields(part_id: str, kind: str, fields: Iterable[str]) -> tuple[Part, ...]:
    """One part from `name=text` arguments, each text as in a cell of a sheet. Raises BadInput."""
    from catalogue.building import build
    from catalogue.cells import columns_for, from_cells
    from catalogue.near_miss import hint_of
    from catalogue.parts import KINDS

    problems: list[tuple[str, str]] = []
    cells: dict[str, str] = {}
    kind, fields = _kind_among(kind, list(fields))
    if not kind:
        raise BadInput((_problem(part_id, 0, "its kind is missing", "write kind=fuse"),))
    known = columns_for(kind) if kind in KINDS else ()
    for field in fields:
        name, equals, text = field.partition("=")
        if not equals or not text.strip():
            problems.append((f"{field[:60]!r} is no field", "write FIELD=TEXT"))
        elif known and name not in known:
            problems.append((f"a {kind} has no field {name[:40]!r}", hint_of(name, known)))
        elif name in cells:
            problems.append((f"{name} stands twice", ""))
        else:
            cells[name] = text
    stated, unclear = from_cells(kind, cells) if known else ({}, [])
    part, wrong = build(part_id, kind, stated)
    problems.extend((problem.what, problem.hint) for problem in (*unclear, *wrong))
    if problems or part is None:
        raise BadInput(tuple(_problem(part_id, 0, what, hint) for what, hint in problems))
    return (part,)


def _kind_among(kind: str, fields: list[str]) -> tuple[str, list[str]]:
    """The kind by option, else by a field `kind=...` as a file writes it; and the other fields."""
    stated = [field for field in fields if field.partition("=")[0].strip() == "kind"]
    if kind or len(stated) != 1:
        return kind, fields
    return stated[0].partition("=")[2].strip(), [each for each in fields if each not in stated]
