"""Builds the generic parts' database from the tables in `generic/`: `python -m catalogue.build`."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

from catalogue.building import build
from catalogue.errors import CatalogueError
from catalogue.generic.breakers import breakers
from catalogue.generic.conductors import conductors
from catalogue.generic.equipment import equipment
from catalogue.generic.fuses import fuses
from catalogue.parts import Part
from catalogue.saving import save
from catalogue.store import GENERIC
from catalogue.writing import open_for_change


def generic_parts() -> Iterator[Part]:
    """Every generic part, by id. Raises CatalogueError for a table that makes no part."""
    seen: set[str] = set()
    drafts = [*fuses(), *breakers(), *conductors(), *equipment()]
    for draft in sorted(drafts, key=lambda draft: draft.id):
        part, problems = build(draft.id, draft.kind, draft.stated, "generic")
        if part is None or draft.id in seen:
            raise CatalogueError(f"{draft.id}: {problems or 'stands twice'}")
        seen.add(draft.id)
        yield part


def write_generic(path: Path) -> int:
    """Write the generic parts to a new file; how many there are. Raises CatalogueError."""
    path.unlink(missing_ok=True)
    count = 0
    with open_for_change(path, generic=True) as db:
        parts = list(generic_parts())
        save(db, parts, None)
        count = len(parts)
        # They guard what is written, and every reader would have to read them.
        guards = "SELECT name FROM sqlite_master WHERE type = 'trigger'"
        for (name,) in db.execute(guards).fetchall():
            db.execute(f"DROP TRIGGER {name}")
        db.execute("VACUUM")
    return count


if __name__ == "__main__":
    sys.stdout.write(f"{write_generic(Path(GENERIC))} generic parts in {GENERIC}\n")
