"""`fusewright measured`: a commissioning record against the study, or a blank one to fill in."""

from __future__ import annotations

import json
import os
from typing import TYPE_CHECKING

from coordination.checking import Request, judged, prepare
from coordination.cli.output import columns, emit, is_terminal, speaks_unicode
from coordination.errors import BadInput, Problem
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.measured.rejudge import Outcome


def compare_record(request: Request, record: str, width: int | None, *, as_json: bool) -> int:
    """Print what a record says; gives 0, 1 or 3. Raises BadInput, CatalogueError."""
    from coordination.measured import read_measured, with_measured

    system, packs = prepare(request)
    read = read_measured(record, system)
    outcome = with_measured(system, read, lambda each: judged(request, each, packs))
    emit(_json(outcome) if as_json else _text(outcome, width))
    return outcome.exit_status


def _text(outcome: Outcome, width: int | None) -> str:
    from coordination.measured.as_text import measured_report
    from coordination.report.colour import paint_for

    return measured_report(outcome, columns(width), paint_for(is_terminal(), os.environ))


def _json(outcome: Outcome) -> str:
    from coordination.measured.answer import measured_answer

    answer = measured_answer(outcome)
    return json.dumps(answer, indent=2, ensure_ascii=not speaks_unicode(), allow_nan=False) + "\n"


def write_blank(request: Request, output: str) -> int:
    """Write a record to fill in; gives 0. Raises BadInput if there is such a file; OSError."""
    from coordination.cli.written import today
    from coordination.measured import blank_record

    system, packs = prepare(request)
    text = blank_record(judged(request, system, packs), today())
    try:
        with open(output, "xb") as stream:
            stream.write(text.encode())
    except FileExistsError:
        what = "there is such a file already; it was left as it is"
        raise BadInput((Problem(output, 0, 0, what),)) from None
    emit(f"{clean(output)} is written. Fill it in; what stays empty counts as not measured.\n")
    return 0

