"""A comparison as plain dictionaries and lists, for JSON; the shape is in `answer_types`."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING, Any

from coordination import __version__

if TYPE_CHECKING:
    from coordination.comparison.answer_types import (
        AlteredEntry,
        ComparisonAnswer,
        FieldEntry,
        MoveEntry,
        SideEntry,
    )
    from coordination.comparison.compare import Altered, Comparison, Move
    from coordination.comparison.side import Side


def comparison_answer(comparison: Comparison) -> ComparisonAnswer:
    """The whole answer."""
    currents, renames = comparison.currents, comparison.renames
    return {
        "fusewright": __version__,
        "before": _side(comparison.old),
        "after": _side(comparison.new),
        "threshold": comparison.threshold,
        "status": comparison.exit_status,
        "moves": [_move(each) for each in comparison.moves],
        "currents": None if currents is None else [
            {"condition": each.condition, "where": each.where, "quantity": each.quantity,
             "before": each.before, "after": each.after}
            for each in currents
        ],
        "things": _altered(comparison.things),
        "parts": _altered(comparison.parts),
        "renames": [{"before": was, "after": now} for was, now in renames.items()],
        "packs": _fields(comparison.packs),
        "conditions": _fields(comparison.conditions),
        "newly_unchecked": list(comparison.holes),
    }  # fmt: skip


def _side(side: Side) -> SideEntry:
    verdict: Any = side.verdict
    return {"label": side.label, "system": side.system, "file": side.file, "verdict": verdict}


def _move(move: Move) -> MoveEntry:
    how: Any = move.how
    before, after = move.before, move.after
    return {
        "how": how,
        "rule": move.rule,
        "subject": move.subject,
        "before": before.verdict if before else "",
        "after": after.verdict if after else "",
        "margin_before": before.margin if before else None,
        "margin_after": after.margin if after else None,
        "because": after.because if after else "",
    }


def _altered(altered: Iterable[Altered] | None) -> list[AlteredEntry] | None:
    if altered is None:
        return None
    entries: list[AlteredEntry] = []
    for each in altered:
        how: Any = each.how
        fields = _fields(each.fields)
        entries.append({"how": how, "kind": each.kind, "name": each.name, "fields": fields})
    return entries


def _fields(fields: Iterable[tuple[str, str, str]]) -> list[FieldEntry]:
    return [{"field": name, "before": was, "after": now} for name, was, now in fields]
