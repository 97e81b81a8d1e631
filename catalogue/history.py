"""Reads what a catalogue keeps of its past: the revisions of a part, the parts of a day.

Read-only; who may change a status stands in `reviews`.
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, time
from itertools import zip_longest
from typing import Any, Final, NamedTuple

from catalogue.cells import to_cells
from catalogue.errors import CatalogueError
from catalogue.parts import Part
from catalogue.revisions import part_of
from catalogue.store import Store

_COLUMNS: Final = (
    "revision.part_id, revision.number, changed_at, changed_by, why, "
    "revision.status, revision.sha256, revision.body"
)
_JOINED: Final = "revision JOIN change ON change.number = revision.change"


class Revision(NamedTuple):
    """One state of a part.

    at, by, why -- when (UTC), by whom and for what reason it was entered
    status      -- draft, reviewed, retired, removed; None: it does not say
    sha256      -- of `body`; None where the part was removed
    body        -- the whole part as canonical JSON; None where it was removed
    """

    part_id: str
    number: int
    at: str
    by: str
    why: str | None
    status: str | None
    sha256: str | None
    body: str | None

    @property
    def part(self) -> Part | None:
        """The part as it was; None where it was removed. Raises CatalogueError."""
        return None if self.body is None else part_of(self.body)


def revisions_of(store: Store, part_id: str) -> tuple[Revision, ...]:
    """All states of a part, the first one first. Raises CatalogueError if there is none."""
    query = f"SELECT {_COLUMNS} FROM {_JOINED} WHERE part_id = ? ORDER BY revision.number"
    found = tuple(Revision(*row) for row in store.ask(query, part_id))
    if not found:
        from catalogue.near_miss import hint_of

        known = store.ask("SELECT DISTINCT part_id FROM revision")
        hint = hint_of(part_id, (row[0] for row in known))
        what = f"the history in {store.path!r} has no part {part_id[:100]!r}"
        raise CatalogueError(f"{what}; {hint}" if hint else what)
    return found


def moment_of(text: str) -> str:
    """The moment that a date or a date-time names, as the catalogue writes it.

    A date means the end of that day, UTC; a time without an offset is UTC.
    Raises CatalogueError for anything else.
    """
    try:
        found = datetime.fromisoformat(text.strip())
        if len(text.strip()) <= len("2026-03-02"):
            found = datetime.combine(found, time.max)
        found = found if found.tzinfo else found.replace(tzinfo=UTC)
        at = found.astimezone(UTC).isoformat(timespec="milliseconds")
    except (ValueError, OverflowError) as error:
        what = f"{text[:40]!r} is no date: write 2026-03-02 or 2026-03-02T14:30"
        raise CatalogueError(what) from error
    return at.replace("+00:00", "Z")


def beginning(store: Store) -> str | None:
    """When the history of the file begins; None if nothing was ever entered."""
    found: str | None = store.ask("SELECT min(changed_at) FROM change")[0][0]
    return found


def parts_as_of(store: Store, at: str, part_id: str | None = None) -> Iterator[Revision]:
    """What the catalogue said at a moment: the last revision of each part, or of one, by id.

    at -- as `moment_of` gives it
    """
    which, values = ("AND part_id = ?", (at, part_id)) if part_id is not None else ("", (at,))
    query = (
        f"SELECT {_COLUMNS}, max(revision.number) FROM {_JOINED} "
        f"WHERE changed_at <= ? {which} GROUP BY part_id ORDER BY part_id"
    )
    for row in store.ask(query, *values):
        found = Revision(*row[:-1])
        if found.body is not None:
            yield found


class Differing(NamedTuple):
    """A field that two states of a part do not share: as each states it ("" : not at all)."""

    field: str
    before: str
    after: str


def differences(before: Part | None, after: Part | None) -> list[Differing]:
    """The fields that differ, in the order they are shown in."""
    old, new = _stated(before), _stated(after)
    names = dict.fromkeys((*old, *new))
    pairs = ((name, old.get(name, ""), new.get(name, "")) for name in names)
    return [Differing(*each) for each in pairs if each[1] != each[2]]


def _stated(part: Part | None) -> dict[str, str]:
    if part is None:
        return {}
    cells = {"kind": part.kind, **to_cells(part)}
    if "resistance.assumed" in part.written:
        cells["resistance"] += f" (assumed band {part.written['resistance.assumed']})"
    return cells


def out_of_order(entries: tuple[Revision, ...]) -> list[int]:
    """Numbers of revisions that are dated before the one they follow: a clock went wrong."""
    pairs: Any = zip_longest(entries, entries[1:])
    return [after.number for before, after in pairs if after and after.at < before.at]
