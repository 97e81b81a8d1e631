"""Which parts a set of papers has, in their order, and which of them nobody can leave out."""

from __future__ import annotations

from collections.abc import Iterable

#: In the order of the page; each has a title under its name in the language files.
SECTIONS = (
    "verdict",
    "findings",
    "diagram",
    "curves",
    "points",
    "outages",
    "schedules",
    "labels",
    "commissioning",
    "passes",
    "basis",
    "limits",
    "cautions",
)

#: What says how far a page may be trusted goes with every part of it.
ALWAYS = ("verdict", "limits", "cautions")


def chosen_sections(names: Iterable[str]) -> tuple[str, ...]:
    """The parts to print: those named and those that always are; all, if none is named.

    Raises KeyError for a name that is none of `SECTIONS`.
    """
    named = tuple(names)
    for name in named:
        if name not in SECTIONS:
            raise KeyError(name)
    return tuple(each for each in SECTIONS if not named or each in named or each in ALWAYS)
