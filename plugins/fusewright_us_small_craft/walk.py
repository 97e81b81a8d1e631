"""Walks that only these rules need: through devices, and to the batteries of one bank."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from coordination.rules.kit.zone import Zone, zone


def spread(
    points: Sequence[str], study: Any, *, without: Iterable[Any] = (), closed: Iterable[str] = ()
) -> Zone:
    """Everything reached, devices crossed, some elements and points taken out."""
    out, barred = {element.name for element in without}, frozenset(closed)
    return zone(
        points, study, lambda e: e.name in out or e.start in barred or e.end in barred
    )  # fmt: skip


def bank(source: Any, study: Any) -> tuple[Any, ...]:
    """Batteries joined to this one over closed elements, devices crossed, itself included.

    A switch that is normally open joins no bank where an exceptional condition closes it.
    """
    normal = study.condition.name == "normal"
    links = () if normal else [e for e in study.system.elements() if e.normally_open]
    return spread([source.name], study, without=links).batteries(study)
