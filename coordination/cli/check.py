"""`fusewright check`: every finding of a system file, printed in the format asked for."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, Any

from coordination.checking import Request, findings_of
from coordination.checking.local import Local, configured
from coordination.cli.guard import tell
from coordination.cli.output import columns, emit, is_terminal, speaks_unicode
from coordination.report.view import View

if TYPE_CHECKING:
    from coordination.cli.quick import Check
    from coordination.rules.finding import Findings


def check_file(asked: Check) -> int:
    """Print the answer; gives the exit status: 0, 1 or 3. Raises BadInput, CatalogueError."""
    local = configured(os.environ) + Local(asked.rules_from, asked.house_rules)
    request = Request(
        asked.file,
        asked.catalogue,
        asked.condition,
        asked.packs,
        asked.rules,
        asked.without,
        local,
    )
    findings = findings_of(request)
    if asked.debug:
        tell("\n".join(filter(None, (problem.trace for problem in findings.problems))))
    view = View(asked.only, asked.full, columns(asked.width), request.restrictions())
    emit(_rendered(findings, view, asked.format))
    return findings.exit_status


def _rendered(findings: Findings, view: View, format: str) -> str:
    if format in ("json", "sarif"):
        return _json(findings, view, format)
    if format == "junit":
        from coordination.cli.curves import today
        from coordination.report.junit import junit_report

        return junit_report(findings, view, today(), ascii_only=not speaks_unicode())
    if format == "markdown":
        from coordination.report.markdown import markdown_report

        return markdown_report(findings, view)
    from coordination.report.colour import paint_for
    from coordination.report.text import text_report

    return text_report(findings, view, paint_for(is_terminal(), os.environ))


def _json(findings: Findings, view: View, format: str) -> str:
    import json

    made: Any
    if format == "json":
        from coordination.report.answer import answer

        made = answer(findings, view)
    else:
        from coordination.report.sarif import sarif_report

        made = sarif_report(findings, view)
    return json.dumps(made, ensure_ascii=not speaks_unicode(), allow_nan=False) + "\n"
