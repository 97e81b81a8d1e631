"""How the past of parts is printed: for people, whatever stands in it, and for machines."""

from __future__ import annotations

import json
from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING, Any

from catalogue.errors import CatalogueError
from coordination.report.wording import clean

if TYPE_CHECKING:
    from catalogue.history import Differing, Revision

#: Signs of a text that are shown; a text may have a million.
SHOWN = 300
_FIELDS_SHOWN = 6


def cut(text: str, most: int = SHOWN) -> str:
    """The text, every sign of it harmless; of a long one its beginning and how long it is."""
    if len(text) <= most:
        return clean(text)
    return f"{clean(text[:most])} ... ({len(text):,} characters)"


def log_text(entries: Sequence[Revision]) -> str:
    """One paragraph a revision, the newest first."""
    from catalogue.history import differences, out_of_order

    late = set(out_of_order(tuple(entries)))
    before = {entry.number: earlier for earlier, entry in pairwise(entries)}
    lines = []
    for entry in reversed(entries):
        lines.append(
            f"revision {entry.number}  {entry.at}  {cut(entry.by)}  {entry.status or 'no status'}"
        )
        if entry.number in late:
            lines.append("  dated before the one it follows: a clock went wrong")
        if entry.why:
            lines.append(f"  why: {cut(entry.why)}")
        if entry.number in before:
            found = differences(before[entry.number].part, entry.part)
            lines += [f"  {_change(each)}" for each in found[:_FIELDS_SHOWN]] if entry.part else []
            if entry.part and len(found) > _FIELDS_SHOWN:
                lines.append(f"  and {len(found) - _FIELDS_SHOWN} more fields")
        source = [cut(text) for text in (_field(entry, "document"), _field(entry, "page")) if text]
        if source:
            lines.append(f"  from: {', '.join(source)}")
        lines.append(f"  sha256: {entry.sha256 or 'none: removed'}")
    return "\n".join((clean(entries[0].part_id), *lines)) + "\n"


def _field(entry: Revision, name: str) -> str | None:
    value: str | None = getattr(entry.part, name, None)
    return value


def _change(each: Differing) -> str:
    return f"{each.field}: {_shown(each.before)} -> {_shown(each.after)}"


def _shown(cell: str) -> str:
    return cut(cell, 120) if cell else "not stated"


def picked(
    entries: Sequence[Revision], first: int | None, second: int | None
) -> tuple[Revision | None, Revision]:
    """The two revisions that are asked for. Raises CatalogueError for one that is not there."""
    by_number = {entry.number: entry for entry in entries}
    for number in (first, second):
        if number is not None and number not in by_number:
            raise CatalogueError(
                f"{entries[0].part_id!r} has no revision {number}; the last is {entries[-1].number}"
            )
    after = entries[-1] if second is None else by_number[second]
    if first is not None:
        return by_number[first], after
    return by_number.get(after.number - 1), after


def diff_text(before: Revision | None, after: Revision, found: Sequence[Differing]) -> str:
    """What two revisions do not share, a field a line."""
    old = f"revision {before.number} ({before.at})" if before else "nothing"
    lines = [f"{clean(after.part_id)}: {old} -> revision {after.number} ({after.at})"]
    lines += [f"  {_change(each)}" for each in found] or ["  no field differs"]
    return "\n".join(lines) + "\n"


def as_of_text(
    found: Sequence[Revision], at: str, begins: str | None, *, whole: bool = False
) -> str:
    """The parts of a day, one a line, or all that one of them stated."""
    head = f"as the catalogue stood at {at}"
    if begins is None or begins > at:
        told = f"; its history begins {begins}" if begins else "; it has no history"
        return f"{head}: nothing is known of that time{told}\n"
    if not found:
        return f"{head}: no such part\n"
    lines = [head]
    if whole:
        from coordination.cli.part_text import part_text

        for each in found:
            lines.append(f"revision {each.number}, by {cut(each.by)}, {each.at}")
            lines.append(part_text(each.part, False).rstrip("\n") if each.part else "")
        return "\n".join(lines) + "\n"
    width = max(len(clean(each.part_id)) for each in found)
    for each in found:
        part = each.part
        about = f"{each.status or 'no status':9}  {cut(part.description or '', 80) if part else ''}"
        name = clean(each.part_id).ljust(width)
        lines.append(f"{name}  revision {each.number}  {each.at}  {about}".rstrip())
    return "\n".join(lines) + "\n"


def as_json(answer: str, found: Sequence[Revision], **more: Any) -> str:
    """The revisions as JSON: each with the whole part, numbers in SI, null where nothing is."""
    revisions = [
        {
            "part": each.part_id, "revision": each.number, "changed_at": each.at,
            "changed_by": each.by, "why": each.why, "status": each.status, "sha256": each.sha256,
            "stated": None if each.body is None else json.loads(each.body),
        }
        for each in found
    ]  # fmt: skip
    return json.dumps({"answer": answer, **more, "revisions": revisions}, indent=1) + "\n"
