"""The edit that would make a measured resistance permanent; nobody makes it but the user."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from catalogue.quantities import parse
from coordination.report.wording import clean, place

if TYPE_CHECKING:
    from catalogue.parts import Battery
    from coordination.measured.rejudge import Outcome


def edit_lines(outcome: Outcome) -> list[str]:
    """For every battery part that was measured: where to write what; empty without any."""
    system = outcome.before.system
    parts: dict[str, list[str]] = {}
    for name in outcome.resistances:
        part = system.sources[name].part
        if part is not None:
            parts.setdefault(part.id, []).append(name)
    return [line for part_id, names in parts.items() for line in _edit(outcome, part_id, names)]


def _edit(outcome: Outcome, part_id: str, names: list[str]) -> Iterator[str]:
    system = outcome.before.system
    users = [s.name for s in system.sources.values() if s.part and s.part.id == part_id]
    part = system.sources[names[0]].part
    assert part is not None
    texts = [outcome.resistances[name].texts for name in names]
    low = min((each[0] for each in texts), key=_ohms)
    high = max((each[1] for each in texts), key=_ohms)
    yield f"  {_where(outcome, part)}"
    yield (
        f"    resistance: {{min: {low}, max: {high}}}"
        f"    # measured {outcome.record.date}: {clean(', '.join(names))}"
    )
    others = [name for name in users if name not in names]
    if others:
        yield f"    (in a part of its own: {clean(', '.join(others))}, not measured, uses it too)"


def _where(outcome: Outcome, part: Battery) -> str:
    """The place of the part: its line, or that it must become one of the file's own."""
    if part.line:
        return f"{place(outcome.before.file, part.line)}, parts: {clean(part.id)}, in place of it"
    return f"{clean(part.id)} is of the catalogue: copy it under parts: of the file, with"


def _ohms(text: str) -> float:
    return parse(text, "resistance")
