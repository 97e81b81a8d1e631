"""The schedule of fuses, breakers and channels: ratings, fault currents here, who stands above."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.report.wording import clean
from coordination.schedules.kinds import Column, Schedule

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

_COLUMNS = (
    Column("device", "which one", "system file"),
    Column("part", "what to buy", "system file"),
    Column("circuit", "where it is", "system file"),
)


def devices(findings: Findings) -> Schedule:
    """One row a device, in the file's order."""
    found = [e for e in findings.system.elements() if e.kind in ("fuse", "breaker", "channel")]
    rows = tuple((e.name, e.part.id if e.part else "", e.circuit) for e in found)
    return Schedule(
        "devices",
        "Fuses and breakers",
        _COLUMNS,
        tuple(tuple(map(clean, row)) for row in rows),
        tuple(e.name for e in found),
    )
