"""One rule's verdict on one subject in one condition, and the only ways to make one."""

from __future__ import annotations

import math
from typing import Literal

from catalogue.frozen import dataclass
from coordination.rules.card import Severity
from coordination.trace import Source, Unknown, Value, unknowns

Verdict = Literal["pass", "fail", "unproven", "note"]
Relation = Literal["<=", ">=", ""]


@dataclass(frozen=True, slots=True, kw_only=True)
class Judgement:
    """A verdict with its two sides.

    margin   -- allowed / found for upper limits, found / required for lower ones; >= 1 passes
    reason   -- a fact in a few words where there is no comparison ("cranking conductor")
    severity -- None: the card's
    """

    verdict: Verdict
    found: Value | None = None
    relation: Relation = ""
    required: Value | None = None
    margin: float | None = None
    missing: tuple[str, ...] = ()
    reason: str = ""
    source: Source | None = None
    severity: Severity | None = None


def compare(
    found: Value,
    *,
    at_most: Value | None = None,
    at_least: Value | None = None,
    reason: str = "",
    severity: Severity | None = None,
) -> Judgement:
    """Hold `found` against exactly one limit; anything unknown makes it unproven, never a pass.

    Raises TypeError unless exactly one of at_most and at_least is given.
    """
    if (at_most is None) == (at_least is None):
        raise TypeError("give exactly one of at_most and at_least")
    required = at_most if at_most is not None else at_least
    assert required is not None
    relation: Relation = "<=" if at_most is not None else ">="
    if isinstance(found, Unknown) or isinstance(required, Unknown):
        return Judgement(
            verdict="unproven",
            found=found,
            relation=relation,
            required=required,
            missing=unknowns((found, required)),
            reason=reason,
            severity=severity,
        )
    most, least = (
        (required.value, found.value) if relation == "<=" else (found.value, required.value)
    )
    if not (math.isfinite(most) and math.isfinite(least)):
        return unproven(f"a finite number for {found.quantity} and {required.quantity}")
    return Judgement(
        verdict="pass" if least <= most * (1 + ROUNDING) or least == most else "fail",
        found=found,
        relation=relation,
        required=required,
        margin=most / least if least > 0 else None,
        reason=reason,
        severity=severity,
    )


#: Rounding in sums must not turn "exactly at the limit" into a fail: one part in 10⁹, no more.
ROUNDING = 1e-9


def passed(reason: str, *, source: Source | None = None) -> Judgement:
    """A pass that rests on a fact, not on two numbers ("a fuse at each end")."""
    return Judgement(verdict="pass", reason=reason, source=source)


def fail(reason: str, *, severity: Severity | None = None, found: Value | None = None) -> Judgement:
    """A fail that rests on a fact, not on two numbers ("no device between battery and cable")."""
    return Judgement(verdict="fail", reason=reason, severity=severity, found=found)


def unproven(*missing: str, reason: str = "") -> Judgement:
    """Something needed is unknown; `missing` names it, one phrase each (at least one)."""
    if not missing:
        raise TypeError("say what is missing")
    return Judgement(verdict="unproven", missing=missing, reason=reason)


def note(reason: str, *, source: Source) -> Judgement:
    """Exempt, or information: says why, and by which clause or practice."""
    return Judgement(verdict="note", reason=reason, source=source)
