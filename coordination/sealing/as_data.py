"""What has changed since a seal, as plain dictionaries and lists for the machine-readable answer.

The shape is in `report.answer_types`.
"""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from coordination.sealing.seal import SealedVerdict

if TYPE_CHECKING:
    from coordination.report.answer_types import Differing, PartChanged, SealEntry, VerdictMoved
    from coordination.sealing.changes import Changes, Differs, Move, PartChange


def changes_data(changes: Changes) -> SealEntry:
    """The changes for JSON."""
    seal = changes.seal
    return {
        "date": seal.date,
        "by": seal.by,
        "why": seal.why,
        "digest": seal.digest,
        "verdict": seal.verdict,
        "changed": not changes.none,
        "causes": list(changes.causes),
        "file": _all(changes.file),
        "program": _all(changes.program),
        "packs": _all(changes.packs),
        "rules": _all(changes.rules),
        "asked": _all(changes.asked),
        "conditions": _all(changes.conditions),
        "problems": _all(changes.problems),
        "parts": [_part(each) for each in changes.parts],
        "moves": [_move(each) for each in changes.moves],
    }


def _all(differs: Iterable[Differs]) -> list[Differing]:
    return [{"what": each.what, "was": each.was, "now": each.now} for each in differs]


def _part(change: PartChange) -> PartChanged:
    return {"id": change.id, "how": change.how, "fields": _all(change.fields)}


def _move(move: Move) -> VerdictMoved:
    return {
        "how": move.how,
        "rule": move.rule,
        "subject": move.subject,
        "was": _verdict(move.was),
        "now": _verdict(move.now),
        "was_margin": move.was.margin if move.was else None,
        "now_margin": move.now.margin if move.now else None,
    }


def _verdict(verdict: SealedVerdict | None) -> str:
    return verdict.verdict if verdict else ""
