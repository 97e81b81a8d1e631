"""What a commissioning record says, as plain dictionaries and lists; the text says the same."""

from __future__ import annotations

from typing import TYPE_CHECKING, cast

from coordination import __version__
from coordination.measured.edit import edit_lines
from coordination.report.answer import step_entry
from coordination.report.limits import cautions
from coordination.report.sentence import because

if TYPE_CHECKING:
    from typing import Literal

    from catalogue.records import Band
    from coordination.comparison.pairing import Change
    from coordination.measured.answer_types import (
        ChangeEntry,
        ComparedEntry,
        Ends,
        MeasuredAnswer,
        MeterEntry,
        ResistanceEntry,
    )
    from coordination.measured.compare import Comparison
    from coordination.measured.record import Meter
    from coordination.measured.rejudge import Outcome
    from coordination.measured.resistance import Resistance
    from coordination.rules.finding import Finding


def measured_answer(outcome: Outcome) -> MeasuredAnswer:
    """The whole answer."""
    record, after = outcome.record, outcome.after
    counts = after.counts
    return {
        "fusewright": __version__,
        "system": after.system.name,
        "file": after.file,
        "record": record.file,
        "date": record.date,
        "by": record.by,
        "condition": record.condition,
        "verdict": after.verdict,
        "status": cast("Literal[0, 1, 3]", outcome.exit_status),
        "counts": {
            "pass": counts["pass"],
            "fail": counts["fail"],
            "unproven": counts["unproven"],
            "note": counts["note"],
            "waived": counts["waived"],
        },
        "meters": {
            "voltage": _meter(record.voltage),
            "current": _meter(record.current),
            "temperature": _meter(record.temperature),
        },
        "resistances": {name: _resistance(each) for name, each in outcome.resistances.items()},
        "compared": [_compared(each) for each in outcome.compared],
        "changes": [_change(each) for each in outcome.changes],
        "edits": [line.strip() for line in edit_lines(outcome)],
        "cautions": list(cautions(after)),
    }


def _meter(meter: Meter) -> MeterEntry:
    return {
        "accuracy": meter.accuracy,
        "resolution": meter.resolution,
        "stated": meter.stated,
        "instrument": meter.serial,
    }


def _resistance(found: Resistance) -> ResistanceEntry:
    under, over = found.spread
    return {
        "value_ohm": found.value.value,
        "by_meters": _ends(found.meters),
        "judged_by": _ends(found.band),
        "spread_under": under,
        "spread_over": over,
        "spread_assumed": found.assumed,
        "steps": [step_entry(step) for step in found.value.steps()],
    }


def _ends(band: Band) -> Ends:
    return {"min_ohm": band.min, "max_ohm": band.max}


def _compared(each: Comparison) -> ComparedEntry:
    return {
        "what": each.what,
        "subject": each.subject,
        "line": each.line,
        "unit": each.unit,
        "value": each.value,
        "error": each.error,
        "low": each.low,
        "high": each.high,
        "limit": each.limit,
        "verdict": each.verdict,
    }


def _change(change: Change[Finding]) -> ChangeEntry:
    one = change.after or change.before
    assert one is not None
    before, after = change.verdicts
    return {
        "rule": one.rule,
        "subject": one.subject,
        "line": one.line,
        "before": before,
        "after": after,
        "because": because(one),
    }
