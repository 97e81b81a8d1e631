"""`fusewright suggest`: the smallest changes that cure, shown, and written if asked."""

from __future__ import annotations

import json
import os
from typing import TYPE_CHECKING

from coordination.checking import Request
from coordination.cli.output import columns, emit, is_terminal, speaks_unicode
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.suggest import Answer, Bounds


def print_suggestions(
    request: Request,
    subject: str | None,
    bounds: Bounds,
    as_json: bool,
    apply: int | None,
    width: int | None,
) -> int:
    """Print what was found, and write the answer of that number; gives 0, 1 or 3.

    Raises BadInput: no such subject or answer, or the file must not be written; CatalogueError.
    """
    from coordination.cli.written import today
    from coordination.report.colour import paint_for
    from coordination.suggest import suggest
    from coordination.suggest.as_json import suggest_answer
    from coordination.suggest.as_text import suggest_report

    day = today().isoformat()
    answer = suggest(request, subject, bounds)
    if as_json:
        told = suggest_answer(answer, day)
        emit(json.dumps(told, indent=2, ensure_ascii=not speaks_unicode()) + "\n")
    else:
        paint = paint_for(is_terminal(), os.environ)
        emit(suggest_report(answer, day, columns(width), paint))
    if apply is not None:
        _apply(request.file, answer, apply, as_json)
    return answer.exit_status


def _apply(file: str, answer: Answer, number: int, as_json: bool) -> None:
    from coordination.errors import BadInput, Problem
    from coordination.suggest.applying import apply_text

    if number > len(answer.cures):
        if not answer.targets:
            return
        what = f"nothing was written: there is no answer {number}"
        raise BadInput((Problem(file, 0, 0, what, f"1 to {len(answer.cures)}"
                                if answer.cures else ""),))  # fmt: skip
    apply_text(file, answer.document, answer.cures[number - 1].text)
    if not as_json:
        emit(f"\n{clean(file)} is written with answer {number}. Check it again.\n")
