"""Asks a pack whether it speaks of a system, before any of its rules is asked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coordination.model import System
from coordination.rules.card import Card, Scope
from coordination.rules.finding import Finding
from coordination.rules.inspection import SCOPE
from coordination.rules.pack import Pack
from coordination.trace import DEFINITION

_CARD = Card(
    name=SCOPE,
    title="Whether the pack speaks of this system",
    why="A code binds some installations and not others; outside it, its rules mean nothing.",
    wrong="A code for boats held against a cabin; a boat whose fuel nobody stated.",
    right="State what is missing under options:, or take the pack out of packs:.",
    severity="paperwork",
    source=DEFINITION,
    basis="practice",
)


def scope_of(pack: Pack, studies: Mapping[str, Any]) -> Scope:
    """Whether it speaks of the system in any condition. Raises what the pack's test raises."""
    if pack.card.scope_test is None:
        return Scope(True)
    answers = [_believed(pack.card.scope_test(study)) for study in studies.values()]
    for wanted in (True, None):
        for answer in answers:
            if answer.applies is wanted:
                return answer
    return answers[0]


def _believed(answer: Any) -> Scope:
    if not isinstance(answer, Scope) or answer.applies not in (True, False, None):
        raise TypeError(f"a scope test answers with a Scope, not {answer!r:.60}")
    if not isinstance(answer.reason, str) or not _all_texts(answer.missing):
        raise TypeError("a Scope has a text as its reason, and texts in `missing`")
    return answer


def _all_texts(items: Any) -> bool:
    return isinstance(items, (tuple, list)) and all(isinstance(item, str) for item in items)


def scope_finding(pack: Pack, scope: Scope, system: System, condition: str) -> Finding:
    """What stands in place of the findings of a pack that does not judge."""
    unknown = scope.applies is None
    why = scope.reason or ("it cannot be told" if unknown else "the system is not of its kind")
    outside = f"outside its scope ({pack.card.scope})"
    what = "whether it applies is not known" if unknown else outside
    return Finding(
        rule=f"{pack.card.name}/{SCOPE}",
        card=_CARD,
        subject=system.name,
        kind="system",
        line=system.line,
        condition=condition,
        verdict="unproven" if unknown else "note",
        severity="paperwork",
        source=DEFINITION,
        missing=tuple(scope.missing) or ((why,) if unknown else ()),
        reason=f"{why}: {what}, so none of its {len(pack.rules)} rules was judged",
    )
