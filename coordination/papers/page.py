"""From findings to the page: what each of its parts shows, then set by the templates."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.languages.files import language
from coordination.languages.language import Language
from coordination.papers.basis import basis_tables, conventions, section_of
from coordination.papers.curve_sheets import MOST, pairs_table, picture_of, ways_of, worst_pairs
from coordination.papers.drawings import diagram
from coordination.papers.found import groups, verdicts
from coordination.papers.outages import outage_part
from coordination.papers.parts import parts_table
from coordination.papers.places import Places, without_dead_links
from coordination.papers.render import rendered
from coordination.papers.schedule_parts import OWN, WHOLE, labels_of, sheet_of
from coordination.papers.sections import SECTIONS
from coordination.papers.table import rows_of, table
from coordination.papers.values import devices_table, points_table, wanting
from coordination.report.limits import cautions, not_checked
from coordination.report.passes import pass_table
from coordination.report.speakers import packages_of
from coordination.report.summary import (
    ORDER,
    basis,
    chosen_of,
    conclusion,
    problem_groups,
    problem_line,
)
from coordination.report.view import View
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.rules.finding import Findings


class Asked(NamedTuple):
    """What the page shall be.

    sections -- from `chosen_sections`; language -- its code; when -- the date it is made
    restricted -- what kept the run to a part of the checks, in words
    """

    sections: tuple[str, ...]
    language: str
    when: date
    restricted: tuple[str, ...] = ()


def report_page(findings: Findings, asked: Asked) -> str:
    """The page as HTML. Raises KeyError: no such language; ModuleNotFoundError: a library lacks."""
    words = language(asked.language, packages_of(findings.packs))
    maker = _Page(findings, asked, words)
    content = maker.head()
    for section in asked.sections:
        content |= maker.made[section]()
    return without_dead_links(rendered(content, words))


class _Page:
    """Makes what each section shows; places are given out in the order of the page."""

    def __init__(self, findings: Findings, asked: Asked, words: Language) -> None:
        self.findings, self.asked, self.words = findings, asked, words
        self.places = Places()
        self.made: Mapping[str, Callable[[], dict[str, Any]]] = {
            "verdict": self._verdict,
            "findings": self._findings,
            "diagram": self._diagram,
            "curves": self._curves,
            "points": self._points,
            "outages": lambda: {"outages": outage_part(findings.studies, words)},
            "schedules": self._schedules,
            "labels": self._labels,
            "commissioning": self._commissioning,
            "passes": self._passes,
            "basis": self._basis,
            "limits": lambda: {"not_checked": not_checked(findings, words)},
            "cautions": lambda: {"cautions": cautions(findings, words)},
        }

    def head(self) -> dict[str, Any]:
        left = [self.words(f"sections.{each}") for each in SECTIONS
                if each not in self.asked.sections]  # fmt: skip
        return {
            "name": clean(self.findings.system.name),
            "when": self.asked.when.isoformat(),
            "sections": self.asked.sections,
            "left_out": left,
        }

    def _verdict(self) -> dict[str, Any]:
        findings = self.findings
        shown = View(restricted=self.asked.restricted)
        words = self.words
        problems = [
            (words.say(title), [problem_line(each, findings.file, words) for each in group])
            for title, group in problem_groups(findings)
        ]
        return {
            "verdict": findings.verdict,
            "conclusion": self.words.say(conclusion(findings)),
            "counts": [(each, findings.counts[each], self._link(each)) for each in ORDER],
            "basis": basis(findings, shown, self.words),
            "problems": problems,
        }

    def _link(self, verdict: str) -> str:
        """Where findings of a verdict stand, if they are on the page."""
        section = "passes" if verdict == "pass" else "findings"
        if not self.findings.counts[verdict] or section not in self.asked.sections:
            return ""
        return section if verdict == "pass" else f"found-{verdict}"

    def _findings(self) -> dict[str, Any]:
        return {"groups": list(groups(self.findings, self.words, self.places))}

    def _diagram(self) -> dict[str, Any]:
        sheets = diagram(self.findings, self.asked.when, self.places, self.words)
        # All sheets are of one paper; one that is higher than wide wants it upright.
        return {"diagram": sheets, "tall": sheets[0].height > sheets[0].width}

    def _curves(self) -> dict[str, Any]:
        study = next(iter(self.findings.studies.values()))
        ways = ways_of(study)
        when = self.asked.when
        sheets = [picture_of(study, way, when, number, self.words)
                  for number, way in enumerate(ways[:MOST])]  # fmt: skip
        return {
            "pairs": pairs_table(worst_pairs(self.findings.studies), self.words),
            "curves": sheets,
            "more_curves": [clean(way.name) for way in ways[MOST:]],
        }

    def _points(self) -> dict[str, Any]:
        studies, words, places = self.findings.studies, self.words, self.places
        worst = verdicts(self.findings)
        return {
            "devices": devices_table(studies, worst, words, places),
            "points": points_table(studies, words, places),
            "wanting": wanting(studies, words),
        }

    def _schedules(self) -> dict[str, Any]:
        from coordination.schedules import NAMES

        made = [self._schedule(name) for name in NAMES if name not in OWN]
        return {"schedules": [sheet_of(each, self.words, self.places) for each in made]}

    def _labels(self) -> dict[str, Any]:
        labels, withheld = labels_of(self._schedule("labels"), self.words)
        return {"labels": labels, "withheld": withheld}

    def _commissioning(self) -> dict[str, Any]:
        record = self._schedule("commissioning")
        return {"commissioning": sheet_of(record, self.words, self.places, WHOLE)}

    def _schedule(self, name: str) -> Any:
        from coordination.schedules import schedule_of

        return schedule_of(self.findings, name, self.asked.when)

    def _passes(self) -> dict[str, Any]:
        cells, heads, _ = pass_table(chosen_of(self.findings, "pass", View()), self.words)
        return {"passes": table(self.words("sections.passes"), heads, rows_of(cells))}

    def _basis(self) -> dict[str, Any]:
        extra = [(clean(pack), *section_of(section, self.words))
                 for pack, section in self.findings.sections]  # fmt: skip
        return {
            "basis_tables": basis_tables(self.findings, self.words),
            "conventions": conventions(self.findings, self.words),
            "parts": parts_table(self.findings.system, self.words),
            "extra": extra,
        }
