"""Findings by subject, worst first, as the page shows them; their words are the report's."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, NamedTuple

from coordination.papers.places import Places
from coordination.papers.table import Cell, Row, Table, table
from coordination.report.anchors import DEVICE, FINDING, anchor
from coordination.report.block import Block, block
from coordination.report.missing import rows_to_state
from coordination.report.summary import ORDER, chosen_of
from coordination.report.view import View
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.languages.language import Language
    from coordination.rules.finding import Finding, Findings

#: What stands in full; passes have a table.
SHOWN = ("fail", "unproven", "waived", "note")

#: The place of one finding, beside that of all findings about its subject.
ONE = "verdict"


class Shown(NamedTuple):
    """One finding: its words, why its rule is there, and its place."""

    block: Block
    why: str
    place: str


class Subject(NamedTuple):
    """All findings of one verdict about one subject; `drawn`: its place in the diagram."""

    name: str
    what: str
    findings: tuple[Shown, ...]
    place: str
    drawn: str


class Group(NamedTuple):
    """All findings of one verdict; `glance`: a row for each; `wanted`: what is to be stated."""

    verdict: str
    total: int
    glance: Table | None
    wanted: Table | None
    subjects: tuple[Subject, ...]


def groups(findings: Findings, words: Language, places: Places) -> Iterator[Group]:
    """The groups that have anything, what needs a hand first."""
    for verdict in SHOWN:
        chosen = chosen_of(findings, verdict, View())
        if chosen:
            yield Group(
                verdict,
                len(chosen),
                _glance(verdict, chosen, words) if len(chosen) > 1 else None,
                _wanted(chosen, words) if verdict == "unproven" else None,
                tuple(_subjects(chosen, findings.file, words, places)),
            )


def verdicts(findings: Findings) -> dict[str, str]:
    """The worst verdict on each subject."""
    worst: dict[str, str] = {}
    for finding in findings.findings:
        known = worst.get(finding.subject, finding.verdict)
        worst[finding.subject] = min(known, finding.verdict, key=ORDER.index)
    return worst


def _subjects(
    chosen: Sequence[Finding], file: str, words: Language, places: Places
) -> Iterator[Subject]:
    """By the gravest finding of each; `chosen` comes so ordered."""
    by_name: dict[str, list[Finding]] = {}
    for finding in chosen:
        by_name.setdefault(finding.subject, []).append(finding)
    for name, several in by_name.items():
        first = several[0]
        yield Subject(
            clean(name),
            f"{words.say(first.kind)} {clean(first.part or '')}".strip(),
            tuple(_shown(each, file, words, places) for each in several),
            places.claim(anchor(FINDING, name)),
            anchor(DEVICE, name),
        )


def _shown(finding: Finding, file: str, words: Language, places: Places) -> Shown:
    why = words.say(clean(finding.card.why))
    return Shown(block(finding, file, words=words), why, places.claim(_place(finding)))


def _place(finding: Finding) -> str:
    return anchor(ONE, f"{finding.rule} {finding.subject}")


def _glance(verdict: str, chosen: Sequence[Finding], words: Language) -> Table:
    rows = []
    for finding in chosen:
        said = block(finding, "", limit=0, words=words)
        rows.append(
            Row((
                Cell(clean(finding.subject), f"#{_place(finding)}"),
                Cell(said.title),
                Cell(words(f"severity.{said.severity}") if said.severity else ""),
                Cell(said.found),
                Cell(said.required),
                Cell(clean(finding.condition)),
            ))
        )  # fmt: skip
    heads = words("glance.heads").split(" | ")
    if verdict in ("unproven", "note"):
        rows = [Row((row.cells[0], row.cells[1], row.cells[5])) for row in rows]
        heads = [heads[0], heads[1], heads[5]]
    return table(words("glance.caption", verdict=words(f"verdict.{verdict}")), heads, rows)


def _wanted(chosen: Sequence[Finding], words: Language) -> Table | None:
    rows = [Row((Cell(who), Cell(what))) for who, what in rows_to_state(chosen, words)]
    heads = words("wanted.heads").split(" | ")
    return table(words("wanted.caption"), heads, rows) if rows else None
