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
    from coordination.sealing import Changes


def check_file(asked: Check) -> int:
    """Print the answer; gives the exit status: 0, 1 or 3. Raises BadInput, CatalogueError."""
    changes: Changes | None = None
    if asked.sealed:
        from coordination.cli.seal import check_sealed

        findings, changes, request = check_sealed(asked)
    else:
        request = _request(asked)
        findings = findings_of(request)
    if asked.debug:
        tell("\n".join(filter(None, (problem.trace for problem in findings.problems))))
    view = View(asked.only, asked.full, columns(asked.width), request.restrictions())
    emit(_rendered(findings, view, asked.format, changes))
    return findings.exit_status


def _request(asked: Check) -> Request:
    local = configured(os.environ) + Local(asked.rules_from, asked.house_rules)
    return Request(
        asked.file,
        asked.catalogue,
        asked.condition,
        asked.packs,
        asked.rules,
        asked.without,
        local,
    )


def _rendered(findings: Findings, view: View, format: str, changes: Changes | None) -> str:
    if format in ("json", "sarif"):
        return _json(findings, view, format, changes)
    if format == "junit":
        from coordination.cli.written import today
        from coordination.report.junit import junit_report

        return junit_report(findings, view, today(), ascii_only=not speaks_unicode())
    if format == "markdown":
        from coordination.report.markdown import markdown_report

        return markdown_report(findings, view) + _since(changes, view, format)
    from coordination.report.colour import paint_for
    from coordination.report.text import text_report

    text = text_report(findings, view, paint_for(is_terminal(), os.environ))
    return text + _since(changes, view, format)


def _since(changes: Changes | None, view: View, format: str) -> str:
    """What has changed since the seal, where that was asked."""
    if changes is None:
        return ""
    from coordination.sealing.as_text import changes_markdown, changes_text

    return changes_text(changes, view.width) if format == "text" else changes_markdown(changes)


def _json(findings: Findings, view: View, format: str, changes: Changes | None) -> str:
    import json

    made: Any
    if format == "json":
        from coordination.report.answer import answer

        made = answer(findings, view)
        if changes is not None:
            from coordination.sealing.as_data import changes_data

            made["seal"] = changes_data(changes)
    else:
        from coordination.report.sarif import sarif_report

        made = sarif_report(findings, view)
    return json.dumps(made, ensure_ascii=not speaks_unicode(), allow_nan=False) + "\n"
