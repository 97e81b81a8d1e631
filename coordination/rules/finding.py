"""The verdicts of a run: one finding per rule and subject, and all of them together."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Literal, NamedTuple

from catalogue.frozen import dataclass, field
from coordination.model import System, Waiver
from coordination.rules.card import Card, Scope, Severity
from coordination.rules.judgement import Relation
from coordination.rules.pack import Pack
from coordination.rules.problem import RunProblem
from coordination.rules.words import Section
from coordination.trace import Source, Value

FindingVerdict = Literal["pass", "fail", "unproven", "note", "waived"]

#: In the order of the counts in the answer.
VERDICTS: tuple[FindingVerdict, ...] = ("pass", "fail", "unproven", "note", "waived")


class Finding(NamedTuple):
    """One rule's verdict on one subject, in the worst of the conditions.

    rule      -- full name, "pack/rule-name"; card -- the rule's card
    subject   -- its name; kind -- "fuse", "cable", "busbar" ...; line -- in the system file
    condition -- the worst one
    severity  -- of the fail if it fails
    found, relation, required, margin -- as in Judgement; None where no numbers are compared
    missing   -- what would have to be known, one phrase each
    reason    -- a fact in a few words where there is no comparison
    source    -- the clause, practice or definition behind the requirement
    part      -- id of the part the subject is made of, if it is one
    waiver    -- who accepted it and why, where the verdict is "waived"
    """

    rule: str
    card: Card
    subject: str
    kind: str
    line: int
    condition: str
    verdict: FindingVerdict
    severity: Severity
    source: Source
    found: Value | None = None
    relation: Relation = ""
    required: Value | None = None
    margin: float | None = None
    missing: tuple[str, ...] = ()
    reason: str = ""
    part: str | None = None
    waiver: Waiver | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Findings:
    """The answer of a run, before anything is worded.

    verdict  -- "fail" if anything fails; else "unproven" if anything is, if a problem left
                something unchecked, or if there is no finding at all; else "pass"
    counts   -- verdict to number of findings, every verdict present
    packs    -- those that ran; one that could not is among `problems`
    findings -- by subject, then rule name
    studies  -- condition name to its study, for the tables of the report
    scopes   -- pack to whether it speaks of the system; of those that were asked anything
    sections -- (pack, section) that packs add to the report, in the order of the packs
    """

    system: System
    verdict: Literal["pass", "fail", "unproven"]
    counts: Mapping[str, int]
    packs: tuple[Pack, ...]
    problems: tuple[RunProblem, ...]
    findings: tuple[Finding, ...]
    studies: Mapping[str, Any]
    scopes: Mapping[str, Scope] = field(default_factory=dict)
    sections: tuple[tuple[str, Section], ...] = ()

    @property
    def file(self) -> str:
        """The system file's path as given."""
        return self.system.file

    @property
    def exit_status(self) -> int:
        """0 everything shown to hold; 1 something fails; 3 something is unproven."""
        return {"pass": 0, "fail": 1, "unproven": 3}[self.verdict]
