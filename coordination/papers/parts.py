"""The parts of a system with the documents their figures were read in, and where each is used."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.papers.table import Cell, Row, Table, table
from coordination.report.wording import clean

if TYPE_CHECKING:
    from catalogue.parts import Part
    from coordination.languages.language import Language
    from coordination.model import System


def parts_table(system: System, words: Language) -> Table:
    """One row a part, by kind and id."""
    used = _used(system)
    rows = [
        Row((
            Cell(clean(part.id), note=words.say(part.kind)),
            Cell(_described(part, words)),
            _document(part, words),
            Cell(clean(part.reviewed or "")),
            Cell(words(f"parts.{part.status or 'unstated'}")),
            Cell(words(f"parts.{part.origin}")),
            Cell(str(count)),
        ))
        for part, count in sorted(used, key=lambda each: (each[0].kind, each[0].id))
    ]  # fmt: skip
    return table(words("parts.caption"), words("parts.heads").split(" | "), rows)


def _document(part: Part, words: Language) -> Cell:
    if not part.document:
        return Cell(words("parts.none"))
    document, page = clean(part.document), clean(part.page or "")
    if part.origin == "generic":
        document, page = words.cite(document), words.cite(page)
    return Cell(document, note=page)


def _described(part: Part, words: Language) -> str:
    """What it is; only our own parts are described in English for certain."""
    told = clean(part.description or "")
    return words.say(told) if part.origin == "generic" else told


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
