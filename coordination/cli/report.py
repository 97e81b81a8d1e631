"""`fusewright report`: the set of papers to hand over, as a page of HTML or as PDF."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from coordination.checking import Request, findings_of, known_word
from coordination.checking.local import Local, configured
from coordination.cli.output import emit
from coordination.cli.written import format_of, known_language, today, write_whole
from coordination.errors import BadInput, Problem
from coordination.papers.sections import SECTIONS, chosen_sections
from coordination.report.summary import headline
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.cli.quick import Report
    from coordination.rules.finding import Findings

FORMATS = ("html", "pdf")

#: What PDF needs that pip does not bring, by Debian's names.
DEBIAN = "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"


def write_report(asked: Report) -> int:
    """Write the papers; gives 0 whatever the verdict. Raises BadInput, CatalogueError, OSError."""
    format = format_of(asked.output, FORMATS, "a report")
    known_language(asked.language)
    names = [name.strip() for each in asked.sections for name in each.split(",") if name.strip()]
    for name in names:
        known_word("section", name, SECTIONS, "--sections")
    request = _request(asked)
    findings = findings_of(request)
    chosen = chosen_sections(names)
    content = _made(findings, chosen, asked.language, request.restrictions(), format)
    write_whole(asked.output, content)
    emit(f"{clean(asked.output)} is written: {headline(findings)}\n")
    return 0


def _request(asked: Report) -> Request:
    local = configured(os.environ) + Local(asked.rules_from, asked.house_rules)
    return Request(
        asked.file, asked.catalogue, packs=asked.packs, without=asked.without, local=local
    )


def _made(
    findings: Findings,
    sections: tuple[str, ...],
    language: str,
    restricted: tuple[str, ...],
    format: str,
) -> bytes:
    """The file's content. Raises BadInput where a library is not installed."""
    try:
        if format == "pdf":
            # Before the work: what is missing is told at once.
            from coordination.papers.pdf import printed
        from coordination.papers.page import Asked, report_page

        page = report_page(findings, Asked(sections, language, today(), restricted))
        return printed(page) if format == "pdf" else page.encode("utf-8")
    except ModuleNotFoundError as error:
        raise _lacking(error.name or str(error), format) from None
    except OSError as error:
        if "cannot load library" not in str(error):
            raise
        raise _lacking(str(error).partition("'")[2].partition("'")[0], format) from None


def _lacking(what: str, format: str) -> BadInput:
    extra = "pdf" if format == "pdf" else "papers"
    allowed = f"pip install 'fusewright[{extra}]'"
    if format == "pdf":
        allowed += f"; on Debian also: apt install {DEBIAN}"
    message = f"a report as {format} needs {clean(what)}, which is not installed"
    return BadInput((Problem("fusewright report", 0, 0, message, allowed),))
