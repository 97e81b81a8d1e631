"""Adds up what became of the jobs of a run, and says how it ends."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Any

from coordination.fleet.job import SKIPPED, UNAFFECTED
from coordination.fleet.looking import Found

if TYPE_CHECKING:
    from coordination.fleet.line_types import Summary


class Tally:
    """Counts of jobs, by verdict, outcome, and what changed since their seals.

    whole -- every file was come to; a run that was interrupted is not
    """

    def __init__(self, found: Found) -> None:
        self.found = found
        self.whole = False
        self.jobs = self.skipped = self.unaffected = 0
        self.verdicts: Counter[str] = Counter()
        self.outcomes: Counter[str] = Counter()
        self.seals: Counter[str] = Counter()
        self.causes: Counter[str] = Counter()
        self.moves: Counter[str] = Counter()
        self.parts: Counter[str] = Counter()

    def add(self, line: dict[str, Any]) -> bool:
        """Count a line; gives whether it is that of a job of this run."""
        outcome = line["outcome"]
        if outcome == SKIPPED:
            self.skipped += 1
            return False
        if outcome == UNAFFECTED:
            self.unaffected += 1
            return False
        self.jobs += 1
        self.outcomes[outcome] += 1
        if line["verdict"] is not None:
            self.verdicts[line["verdict"]] += 1
        if line["seal"] is not None:
            self._add_seal(line["seal"])
        return True

    def _add_seal(self, seal: dict[str, Any]) -> None:
        self.seals[seal["state"]] += 1
        self.causes.update(seal["causes"])
        self.moves.update(seal["moves"].keys())
        self.parts.update(seal["parts"])

    @property
    def status(self) -> int:
        """1 if a job fails; 3 if something was not shown to hold, or not looked at; else 0."""
        if self.verdicts["fail"]:
            return 1
        not_looked_at = self.found.unreadable or self.found.odd or not self.whole
        every = self.verdicts["pass"] == self.jobs and not self.seals["unusable"]
        return 0 if every and not not_looked_at else 3

    def summary(self) -> Summary:
        """All of it for JSON."""
        return {
            "jobs": self.jobs,
            "verdicts": dict(sorted(self.verdicts.items())),
            "outcomes": dict(sorted(self.outcomes.items())),
            "seals": dict(sorted(self.seals.items())),
            "causes": dict(sorted(self.causes.items())),
            "moves": dict(sorted(self.moves.items())),
            "parts": dict(sorted(self.parts.items())),
            "skipped": self.skipped,
            "unaffected": self.unaffected,
            "unreadable": [f"{path}: {reason}" for path, reason in self.found.unreadable],
            "not_files": list(self.found.odd),
            "status": self.status,
        }
