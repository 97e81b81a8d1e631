"""Batteries next to a point and batteries joined to each other, and this pack's own walk."""

from __future__ import annotations

from collections.abc import Mapping
from math import inf
from typing import Any

from coordination.rules.kit import joined
from coordination.rules.kit.joined import interrupts, is_battery
from coordination.rules.kit.kept import once


def reach(
    point: str, study: Any, *, without: Any = None, devices: bool = False, limit: float = inf
) -> dict[str, float]:
    """Points reached from `point` over closed elements, with the conductor length to each [m].

    without -- an element not to walk through; devices -- whether to walk through those
    limit   -- longest way to walk [m]
    """

    def crosses(element: Any) -> bool:
        return element is not without and (devices or not interrupts(element))

    return joined.reach(point, study, crosses, limit=limit)


def at_battery(point: str, study: Any) -> bool:
    """Whether neither device nor drawn cable lies between this point and a battery."""
    return point in once(_battery_points, study)


def joined_batteries(point: str, study: Any) -> tuple[str, ...]:
    """Batteries joined to this battery's point over closed elements, itself included."""
    return once(_banks, study)[point]


def _battery_points(study: Any) -> frozenset[str]:
    batteries = (point for point in study.system.sources if is_battery(point, study))
    return frozenset(point for one in batteries for point in reach(one, study, limit=0.0))


def _banks(study: Any) -> Mapping[str, tuple[str, ...]]:
    banks: dict[str, tuple[str, ...]] = {}
    for point in study.system.sources:
        if point not in banks and is_battery(point, study):
            met = reach(point, study, devices=True)
            bank = tuple(other for other in met if is_battery(other, study))
            banks.update(dict.fromkeys(bank, bank))
    return banks
