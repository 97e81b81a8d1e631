"""`fusewright outage`: what goes dark when one thing happens."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from coordination.checking import Request, known_word, prepare, studies_of
from coordination.cli.output import columns, emit, is_terminal, speaks_unicode

if TYPE_CHECKING:
    from collections.abc import Mapping

    from coordination.model import System
    from coordination.study import Study


def outage_table(request: Request, event: str | None, format: str, width: int | None) -> int:
    """Print what every single event leaves, or one; gives 0. Raises BadInput, CatalogueError."""
    system, packs = prepare(request)
    studies = studies_of(request, system, packs)
    if event is not None:
        from coordination.report.outage_detail import known_names

        known_word("event", event, known_names(studies), request.file)
    emit(_printed(system, studies, event, format, width))
    return 0


def _printed(
    system: System, studies: Mapping[str, Study], event: str | None, format: str, width: int | None
) -> str:
    from coordination.report.outage_detail import detail_markdown, detail_report
    from coordination.report.outages import outages_markdown, outages_report

    if format == "json":
        import json

        from coordination.report.outage_answer import outages_answer

        answer = outages_answer(studies, event, system.name, system.file)
        return json.dumps(answer, ensure_ascii=not speaks_unicode(), allow_nan=False) + "\n"
    if format == "markdown":
        return outages_markdown(studies) if event is None else detail_markdown(studies, event)
    from coordination.report.colour import paint_for

    paint = paint_for(is_terminal(), os.environ)
    if event is None:
        return outages_report(studies, columns(width), paint)
    return detail_report(studies, event, columns(width), paint)
