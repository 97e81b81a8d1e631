"""Cards: what a rule and a pack say about themselves, as data that tests can demand."""

from __future__ import annotations

from typing import Literal

from catalogue.frozen import dataclass
from coordination.trace import Source

Severity = Literal["fire", "damage", "outage", "paperwork"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """What one rule says about itself; every field is required.

    name   -- in words with hyphens, unique in its pack, never reused
    why, wrong, right -- the reason; what breaks it in practice; what cures it
    """

    name: str
    title: str
    why: str
    wrong: str
    right: str
    severity: Severity
    source: Source


@dataclass(frozen=True, slots=True, kw_only=True)
class PackCard:
    """What a pack says about itself.

    api         -- the API_VERSION of the pack door it was written for
    edition     -- edition of the rules it carries, and `in_force` the date from which (ISO date)
    not_covered -- what it does not check, one phrase each; every report prints them
    """

    name: str
    title: str
    api: int
    version: str
    edition: str
    in_force: str
    scope: str
    not_covered: tuple[str, ...]
