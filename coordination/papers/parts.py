"""The parts of a system with the documents their figures were read in, and where each is used."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.papers.table import Cell, Row, Table, table
from coordination.report.wording import clean

if TYPE_CHECKING:
    from catalogue.parts import Part
    from coordination.model import System
    from coordination.papers.language import Language


def parts_table(system: System, words: Language) -> Table:
    """One row a part, by kind and id."""
    used = _used(system)
    rows = [
        Row((
            Cell(clean(part.id), note=words.say(part.kind)),
            Cell(clean(part.description or ""), foreign=True),
            Cell(clean(part.document or words("parts.none")), note=clean(part.page or "")),
            Cell(clean(part.reviewed or "")),
            Cell(words(f"parts.{part.status or 'unstated'}")),
            Cell(words(f"parts.{part.origin}")),
            Cell(str(count)),
        ))
        for part, count in sorted(used, key=lambda each: (each[0].kind, each[0].id))
    ]  # fmt: skip
    return table(words("parts.caption"), words("parts.heads").split(" | "), rows)


def _used(system: System) -> list[tuple[Part, int]]:
    parts: list[Part | None] = [each.part for each in system.sources.values()]
    parts += [each.part for each in system.busbars.values()]
    for element in system.elements():
        parts += [element.part, element.return_path.part]
    found: dict[str, tuple[Part, int]] = {}
    for part in parts:
        if part is not None:
            found[part.id] = part, found.get(part.id, (part, 0))[1] + 1
    return list(found.values())
