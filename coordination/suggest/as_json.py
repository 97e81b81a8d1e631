"""The answer for machines, as plain dictionaries and lists; its shape is in `answer_types`."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from coordination import __version__
from coordination.report.sentence import because
from coordination.suggest.words import bound_words, change_words, diff_lines, waiver_lines

if TYPE_CHECKING:
    from coordination.model import System
    from coordination.rules.finding import Finding
    from coordination.suggest.answer import Answer, Conflict, Cure, Pair, Wanted
    from coordination.suggest.answer_types import (
        ChangeEntry,
        ConflictEntry,
        CureEntry,
        FailEntry,
        LackEntry,
        PairEntry,
        SuggestAnswer,
    )
    from coordination.suggest.change import Change


def suggest_answer(answer: Answer, day: str) -> SuggestAnswer:
    """The whole answer; `day` is today, YYYY-MM-DD, for the waiver that is proposed."""
    bounds, conflict = answer.bounds, answer.conflict
    return {
        "fusewright": __version__,
        "system": answer.system.name,
        "file": answer.before.file,
        "subject": answer.subject,
        "targets": [_fail(each) for each in answer.targets],
        "unproven": [_fail(each) for each in answer.unproven],
        "cures": [_cure(answer, each) for each in answer.cures],
        "conflict": _conflict(answer.system, conflict, day) if conflict is not None else None,
        "lacking": [_lack(each) for each in answer.wanted],
        "not_editable": dict(answer.refused),
        "bounds": {
            "changes": bounds.changes,
            "judged_at_most": bounds.judged,
            "seconds": bounds.seconds,
            "shorten": bounds.shorten,
            "judged": answer.judged,
            "exhausted": answer.exhausted,
            "words": bound_words(answer),
        },
    }


def _cure(answer: Answer, cure: Cure) -> CureEntry:
    return {
        "changes": [_change(each, answer.system) for each in cure.changes],
        "fixed": [_pair(each) for each in cure.fixed],
        "eroded": [_pair(each) for each in cure.eroded],
        "added": [_fail(each) for each in cure.shown],
        "left": [_fail(each) for each in cure.left],
        "counts": dict(cure.after.counts),
        "diff": "\n".join(diff_lines(answer, cure)) + "\n",
    }


def _change(change: Change, system: System) -> ChangeEntry:
    placed = change.sort in ("device", "moved")
    return {
        "sort": change.sort,  # type: ignore[typeddict-item]  # one of SORTS
        "subject": change.subject,
        "part": change.part_id or None,
        "was": change.was,
        "name": change.name or None,
        "index": change.index if placed else None,
        "text": change.text or None,
        "words": change_words(change, system),
    }


def _fail(finding: Finding) -> FailEntry:
    return {
        "rule": finding.rule,
        "subject": finding.subject,
        "condition": finding.condition,
        "verdict": finding.verdict,
        "severity": finding.severity,
        "margin": _finite(finding.margin),
        "line": finding.line,
        "because": because(finding),
    }


def _pair(pair: Pair) -> PairEntry:
    old, new = pair.before, pair.after
    assert old is not None
    return {
        "rule": old.rule,
        "subject": old.subject,
        "verdict_before": old.verdict,
        "verdict_after": new.verdict if new is not None else None,
        "margin_before": _finite(old.margin),
        "margin_after": _finite(new.margin) if new is not None else None,
    }


def _conflict(system: System, conflict: Conflict, day: str) -> ConflictEntry:
    waivers = waiver_lines(conflict.waivers, day)
    return {
        "rules": list(conflict.rules),
        "examples": [
            {"changes": [_change(c, system) for c in changes], "fails": [_fail(f) for f in fails]}
            for changes, fails in conflict.examples
        ],
        "waivers": [_fail(each) for each in conflict.waivers],
        "waivers_yaml": "".join(f"{line}\n" for line in ("waivers:", *waivers)) if waivers else "",
        "with_changes": [_change(each, system) for each in conflict.by],
    }


def _lack(wanted: Wanted) -> LackEntry:
    return {
        "subject": wanted.name,
        "carries_A": wanted.needs.load,
        "holds_V": wanted.needs.voltage,
        "breaks_A": wanted.needs.duty,
        "state_too_little": [part.id for part, _ in wanted.choice.silent],
        "unfit": wanted.choice.unfit,
    }


def _finite(value: float | None) -> float | None:
    return value if value is not None and math.isfinite(value) else None
