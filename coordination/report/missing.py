"""What somebody would have to state, out of the phrases that findings name as missing.

A phrase is "who: what": a part or a thing of the file, and what it does not say.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from coordination.languages.language import ENGLISH
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.languages.language import Language
    from coordination.rules.finding import Finding

#: How the rest of a phrase begins that tells of a fault in the drawing, not of a figure to state.
_NOT_STATED = ("not ", "more ", "connected")


def to_state(missing: Iterable[str], words: Language = ENGLISH) -> dict[str, list[str]]:
    """Each part or thing with what it should state, in the order in which they are met."""
    wanted: dict[str, list[str]] = {}
    for phrase in missing:
        who, colon, what = phrase.partition(": ")
        if not colon or _no_figure(who, what):
            continue
        fields = wanted.setdefault(clean(who), [])
        field = words.lack(clean(phrase)).removeprefix(f"{clean(who)}: ")
        if field not in fields:
            fields.append(field)
    return wanted


def _no_figure(who: str, what: str) -> bool:
    """Whether a phrase tells of the drawing, of an equation's range or of a crash."""
    odd = what[:1].isdigit() or what.startswith(_NOT_STATED) or " must be " in what
    return odd or who == "rule crashed"


def cure_of(missing: Iterable[str], words: Language = ENGLISH) -> str:
    """What to do about an unproven finding; empty where nothing is to be stated."""
    wanted = to_state(missing, words)
    if not wanted:
        return ""
    told = "; ".join(f"{who}: {', '.join(fields)}" for who, fields in wanted.items())
    return words.put("state {what} (in the part or in the file)", what=told)


def rows_to_state(
    findings: Iterable[Finding], words: Language = ENGLISH
) -> list[tuple[str, str]]:
    """What several unproven findings want, each part or thing once, with its fields."""
    phrases = (phrase for finding in findings for phrase in finding.missing)
    return [(who, ", ".join(fields)) for who, fields in to_state(phrases, words).items()]
