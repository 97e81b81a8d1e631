"""A section of the report: what is truly lost on the way, beside the standard's own formula."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Derived, Section

RULE = "iso_small_craft/voltage-drop"
TITLE = "Voltage drop beside the standard's formula"
HEADINGS = ("equipment", "condition", "lost", "by E = 0.0164 × I × L / S", "nominal")
TEXT = (
    "The formula's 0.0164 Ω·mm²/m (from memory) lies below copper at 20 °C (0.01724), and it knows "
    "neither warm copper nor fuses, switches and joints: it shows less than what is lost. Verdicts "
    "rest on the larger of the two."
)


def sections(findings: Any) -> tuple[Section, ...]:
    """One table, a row for each piece of equipment whose drop is known; none without a row."""
    rows = tuple(_rows(findings))
    return (Section(title=TITLE, paragraphs=(TEXT,), headings=HEADINGS, rows=rows),) if rows else ()


def _rows(findings: Any) -> Iterator[tuple[str, ...]]:
    for finding in findings.findings:
        if finding.rule == RULE and isinstance(finding.found, Derived):
            top = {each.symbol: each.value for each in finding.found.inputs}
            yield (
                finding.subject,
                finding.condition,
                _volts(top.get("U")),
                _volts(top.get("E")),
                _volts(top.get("U_n")),
            )


def _volts(value: float | None) -> str:
    return "not known" if value is None else f"{value:.4g} V"
