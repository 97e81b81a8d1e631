"""What kept a run from checking all it was asked to, as values that the report words."""

from __future__ import annotations

from typing import Literal

from catalogue.frozen import dataclass

#: pack: one that could not be used; rule: one that crashed; network: something about the drawing
#: that the study could not take in; waiver: one without effect.
ProblemKind = Literal["pack", "rule", "network", "waiver"]


@dataclass(frozen=True, slots=True, kw_only=True)
class RunProblem:
    """One thing that went wrong without making the input unusable.

    what       -- a short sentence
    about      -- name of the pack, rule, condition or subject
    line       -- in the system file (0: none)
    near_miss  -- what was probably meant
    incomplete -- something went unchecked: the verdict is at best unproven; False: information
    trace      -- where it happened, for --debug
    """

    kind: ProblemKind
    what: str
    about: str = ""
    line: int = 0
    near_miss: str = ""
    incomplete: bool = True
    trace: str = ""
