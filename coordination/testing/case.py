"""What a case is: a system, what is changed in it, and the findings that must result."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any


class CaseError(Exception):
    """A case file that cannot be used, with file and case named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Expected:
    """One finding that must be there; whatever is None is not looked at.

    found, required, margin -- as written, with unit; equal within half the last digit
    missing -- phrases that must all be missing (and no others)
    reason  -- text that the finding's reason must contain
    """

    subject: str
    verdict: str
    found: str | None = None
    required: str | None = None
    margin: str | None = None
    condition: str | None = None
    severity: str | None = None
    missing: tuple[str, ...] | None = None
    reason: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Case:
    """One case of one rule.

    rule     -- full name, "pack/rule"; file -- the case file
    system   -- the system file that is changed and checked
    changes  -- path in it to the new value; removals -- paths taken out
    expected -- findings of the rule that must be there
    others   -- verdicts that its other findings may have; empty: there are none
    edge     -- "inside" or "outside" for a case at the very limit
    origin   -- where the expected figures come from
    """

    rule: str
    name: str
    file: Path
    system: Path
    changes: Mapping[str, Any]
    removals: tuple[str, ...]
    expected: tuple[Expected, ...]
    others: tuple[str, ...] = ()
    edge: str | None = None
    origin: str

    def __str__(self) -> str:
        return f"{self.rule.partition('/')[2]}: {self.name}"
