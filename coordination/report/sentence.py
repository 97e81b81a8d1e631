"""The one sentence that says why a finding has its verdict, made from its numbers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.languages.language import ENGLISH
from coordination.report.wording import clean, compared
from coordination.trace import Derived

if TYPE_CHECKING:
    from coordination.languages.language import Language
    from coordination.rules.finding import Finding


#: How a number stands to its limit: (an upper limit?, does it hold?) to the sentence.
_COMPARED = {
    (True, True): "{found} is {here}, within the {required} of {limit}",
    (True, False): "{found} is {here}, more than the {required} of {limit}",
    (False, True): "{found} is {here}, at least the {required} of {limit}",
    (False, False): "{found} is {here}, short of the {required} of {limit}",
}
_UNPROVEN = "unproven, because this is not known: {missing}"
_UNPROVEN_SO = "unproven ({reason}), because this is not known: {missing}"
_UNSAID = "what is missing was not said"
_ACCEPTED = "Accepted by {who} on {date}: {reason}."


def because(finding: Finding, words: Language = ENGLISH) -> str:
    """One sentence: what was found against what is required, what is missing, or the fact."""
    subject = clean(finding.subject)
    if finding.verdict == "unproven":
        said = _unproven(finding, words)
    elif isinstance(finding.found, Derived) and isinstance(finding.required, Derived):
        said = _compared(finding, finding.found, finding.required, words)
    elif finding.reason:
        said = words.say(clean(finding.reason))
    else:
        said = _lower(words.say(clean(finding.card.title)), words)
    sentence = f"{subject}: {said}"
    return sentence.rstrip(".") + "." + _waiver(finding, words)


def _compared(finding: Finding, found: Derived, required: Derived, words: Language) -> str:
    here, limit = compared(found, required)
    holds = finding.verdict in ("pass", "note")
    sentence = words.put(
        _COMPARED[finding.relation == "<=", holds],
        found=words.say(clean(found.quantity)),
        here=words.figure(here),
        required=words.say(clean(required.quantity)),
        limit=words.figure(limit),
    )
    return f"{sentence} ({words.say(clean(finding.reason))})" if finding.reason else sentence


def _unproven(finding: Finding, words: Language) -> str:
    told = (words.lack(clean(each)) for each in finding.missing)
    missing = "; ".join(told) or words.put(_UNSAID)
    if finding.reason:
        return words.put(_UNPROVEN_SO, reason=words.say(clean(finding.reason)), missing=missing)
    return words.put(_UNPROVEN, missing=missing)


def _waiver(finding: Finding, words: Language) -> str:
    waiver = finding.waiver
    if finding.verdict != "waived" or waiver is None:
        return ""
    who, reason = clean(waiver.by), clean(waiver.reason).rstrip(".")
    said = words.put(_ACCEPTED, who=who, date=waiver.date.isoformat(), reason=reason)
    return f" {said}"


def _lower(title: str, words: Language) -> str:
    """A title inside a sentence: "Device can break ..." but "AC rating ..." as it is."""
    keep = words.code != ENGLISH.code or title[1:2].isupper()
    return title if keep else title[:1].lower() + title[1:]
