"""Which schedules there are, and how each is made of the findings."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import TYPE_CHECKING

from coordination.schedules.busbars import busbars
from coordination.schedules.cables import cables
from coordination.schedules.commissioning import commissioning
from coordination.schedules.devices import devices
from coordination.schedules.energy import energy
from coordination.schedules.kinds import Schedule
from coordination.schedules.labels import labels
from coordination.schedules.loads import loads
from coordination.schedules.shore import shore

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

_MAKERS: dict[str, Callable[[Findings, date], Schedule]] = {
    "devices": devices,
    "cables": cables,
    "busbars": busbars,
    "loads": loads,
    "energy": energy,
    "shore": shore,
    "labels": labels,
    "commissioning": commissioning,
}

#: The schedules by name, in the order in which they are handed over.
NAMES = tuple(_MAKERS)


def schedule_of(findings: Findings, name: str, made: date) -> Schedule:
    """One schedule; `made` is the date of calculation. Raises KeyError for a name not in NAMES."""
    return _MAKERS[name](findings, made)


def schedules(findings: Findings, made: date) -> tuple[Schedule, ...]:
    """Every schedule, in the order of NAMES; `made` is the date of calculation."""
    return tuple(schedule_of(findings, name, made) for name in NAMES)
