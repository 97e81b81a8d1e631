"""What an import would change: each part new, changed field by field, or the same."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple, Protocol

from catalogue.cells import every_column, to_cells
from catalogue.parts import Part

NEW: Final = "new"
CHANGED: Final = "changed"
SAME: Final = "same"


class Parts(Protocol):
    """Where parts are that were there before."""

    def get(self, part_id: str) -> Part | None:
        """The part of that id, if there is one."""


class FieldChange(NamedTuple):
    """A field as it was and as it will be, as in a cell; empty: not stated."""

    column: str
    before: str
    after: str


class PartChange(NamedTuple):
    """What becomes of one part: new, changed or same."""

    part: Part
    what: str
    fields: tuple[FieldChange, ...] = ()


def changes_of(parts: Iterable[Part], before: Parts | None) -> Iterator[PartChange]:
    """What each part would change in a catalogue; None: there is none yet."""
    for part in parts:
        old = before.get(part.id) if before is not None else None
        if old is None:
            yield PartChange(part, NEW)
        else:
            fields = differences(old, part)
            yield PartChange(part, CHANGED if fields else SAME, fields)


def differences(before: Part, after: Part) -> tuple[FieldChange, ...]:
    """The fields in which two parts differ, in the fields' order, as they are written."""
    old = {"kind": before.kind, **to_cells(before)}
    new = {"kind": after.kind, **to_cells(after)}
    return tuple(
        FieldChange(column, old.get(column, ""), new.get(column, ""))
        for column in ("kind", *every_column())
        if old.get(column, "") != new.get(column, "")
    )
