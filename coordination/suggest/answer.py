"""What a search for changes answers: cures with what they fix and worsen, or why there is none."""

from __future__ import annotations

from collections.abc import Mapping

from catalogue.frozen import dataclass
from coordination.model import System
from coordination.rules.finding import Finding, Findings
from coordination.suggest.change import Change
from coordination.suggest.document import Document
from coordination.suggest.shelf import Choice, Needs


@dataclass(frozen=True, slots=True, kw_only=True)
class Bounds:
    """Within which changes are looked for.

    changes -- the most in one set (of a whole system: for one fail)
    judged  -- combinations that are judged at most; seconds -- how long it may take [s]
    shorten -- by which share a cable may be shortened at most [1]
    """

    changes: int = 3
    judged: int = 2000
    seconds: float = 600.0
    shorten: float = 0.25


@dataclass(frozen=True, slots=True)
class Pair:
    """A finding as drawn and with the changes; None: there is none."""

    before: Finding | None
    after: Finding | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cure:
    """A set of changes, each verdict taken from a check of the text that would be written.

    fixed    -- fails that pass with them; eroded -- passes with a smaller margin, worst loss first
    shown    -- findings of things that were added
    left     -- fails that stay; text -- the whole file; after -- all findings on it
    """

    changes: tuple[Change, ...]
    fixed: tuple[Pair, ...]
    eroded: tuple[Pair, ...]
    shown: tuple[Finding, ...]
    left: tuple[Finding, ...]
    text: str
    after: Findings


@dataclass(frozen=True, slots=True, kw_only=True)
class Conflict:
    """Why no set of changes cures everything.

    rules     -- a smallest set of rules that cannot all hold within the bounds; one rule: no part
                 and no place at hand makes it hold; empty: the search for it was stopped
    examples  -- (changes, what then fails), the nearest misses first
    waivers   -- the fails that would have to be accepted at least, with `by`: the changes then
    """

    rules: tuple[str, ...]
    examples: tuple[tuple[tuple[Change, ...], tuple[Finding, ...]], ...]
    waivers: tuple[Finding, ...]
    by: tuple[Change, ...]


@dataclass(frozen=True, slots=True)
class Wanted:
    """A place for which parts were looked for: what they must bear there, and what was found."""

    name: str
    needs: Needs
    choice: Choice


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What was found.

    subject   -- the one that was asked about; None: the whole system
    targets   -- the fails that were to be cured; unproven -- what stays unproven, never a target
    cures     -- best first; of a whole system the one that mends most
    exhausted -- whether every combination within the bounds was looked at
    judged    -- combinations that were; wanted -- the places that lack a part
    refused   -- what cannot be changed in the text, with the reason
    """

    system: System
    document: Document
    before: Findings
    subject: str | None
    targets: tuple[Finding, ...]
    unproven: tuple[Finding, ...]
    cures: tuple[Cure, ...]
    conflict: Conflict | None
    bounds: Bounds
    exhausted: bool
    judged: int
    wanted: tuple[Wanted, ...]
    refused: Mapping[str, str]

    @property
    def exit_status(self) -> int:
        """0 what was asked about is cured, or did not fail; 1 it is not; 3 the search was stopped.

        A whole system is cured only where no fail is left.
        """
        if not self.targets or (self.cures and not self._left()):
            return 0
        return 1 if self.exhausted else 3

    def _left(self) -> tuple[Finding, ...]:
        cured = {(pair.before.rule, pair.before.subject) for pair in self.cures[0].fixed
                 if pair.before is not None}  # fmt: skip
        return tuple(each for each in self.targets if (each.rule, each.subject) not in cured)
