"""Cards: what a rule and a pack say about themselves, as data that tests can demand."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal

from catalogue.frozen import dataclass
from coordination.trace import Source

Severity = Literal["fire", "damage", "outage", "paperwork"]

#: What a rule rests on: physics; public law; a standard somebody adopted; or practice.
Basis = Literal["physics", "law", "standard", "practice"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Card:
    """What one rule says about itself; every field but `basis` is required.

    name   -- in words with hyphens, unique in its pack, never reused
    why, wrong, right -- the reason; what breaks it in practice; what cures it
    basis -- what it rests on; None: what its pack's card says (`status`). Only physics may fail by
             more than paperwork on a figure that was not read
    """

    name: str
    title: str
    why: str
    wrong: str
    right: str
    severity: Severity
    source: Source
    basis: Basis | None = None


@dataclass(frozen=True, slots=True)
class Scope:
    """Whether a pack speaks of a system at all.

    applies -- True: its rules are judged; False: it says so in a note and judges nothing; None:
               that cannot be told, which is unproven
    reason  -- why, in a few words
    missing -- where it cannot be told: what to state, one phrase each
    """

    applies: bool | None
    reason: str = ""
    missing: tuple[str, ...] = ()


#: `in_force` of rules that nobody dated: a shop's own.
UNDATED = "undated"

#: A pack's scope test: (study) to Scope, asked once for each condition.
ScopeTest = Callable[[Any], Scope]


@dataclass(frozen=True, slots=True, kw_only=True)
class PackCard:
    """What a pack says about itself.

    api         -- the API_VERSION of the pack door it was written for
    edition     -- edition of the rules it carries, and `in_force` the date from which (ISO date);
                   a pack of several editions has a card for each, alike in name
    not_covered -- what it does not check, one phrase each; every report prints them
    jurisdiction -- where and for whom it holds: "United States, recreational boats"
    status      -- what it rests on, where a rule does not say it of itself
    scope_test  -- whether it speaks of a system; None: of every system
    """

    name: str
    title: str
    api: int
    version: str
    edition: str
    in_force: str
    scope: str
    not_covered: tuple[str, ...]
    jurisdiction: str = "anywhere"
    status: Basis = "practice"
    scope_test: ScopeTest | None = None
