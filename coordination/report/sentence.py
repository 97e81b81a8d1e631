"""The one sentence that says why a finding has its verdict, made from its numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.report.wording import clean, compared
from coordination.trace import Derived

if TYPE_CHECKING:
    from coordination.rules.finding import Finding


def because(finding: Finding) -> str:
    """One sentence: what was found against what is required, what is missing, or the fact."""
    subject = clean(finding.subject)
    if finding.verdict == "unproven":
        sentence = f"{subject}: {_unproven(finding)}"
    elif isinstance(finding.found, Derived) and isinstance(finding.required, Derived):
        sentence = f"{subject}: {_compared(finding, finding.found, finding.required)}"
    else:
        sentence = f"{subject}: {clean(finding.reason) or _lower(finding.card.title)}"
    return sentence.rstrip(".") + "." + _waiver(finding)


def _compared(finding: Finding, found: Derived, required: Derived) -> str:
    here, limit = compared(found, required)
    holds = finding.verdict in ("pass", "note")
    upper = finding.relation == "<="
    words = {
        (True, True): "within",
        (True, False): "more than",
        (False, True): "at least",
        (False, False): "short of",
    }[upper, holds]
    limit = f"the {clean(required.quantity)} of {limit}"
    sentence = f"{clean(found.quantity)} is {here}, {words} {limit}"
    return f"{sentence} ({clean(finding.reason)})" if finding.reason else sentence


def _unproven(finding: Finding) -> str:
    missing = "; ".join(map(clean, finding.missing)) or "what is missing was not said"
    reason = f" ({clean(finding.reason)})" if finding.reason else ""
    return f"unproven{reason}, because this is not known: {missing}"


def _waiver(finding: Finding) -> str:
    waiver = finding.waiver
    if finding.verdict != "waived" or waiver is None:
        return ""
    who, reason = clean(waiver.by), clean(waiver.reason).rstrip(".")
    return f" Accepted by {who} on {waiver.date.isoformat()}: {reason}."


def _lower(title: str) -> str:
    """A title inside a sentence: "Device can break ..." but "AC rating ..." as it is."""
    title = clean(title)
    return title if title[1:2].isupper() else title[:1].lower() + title[1:]
