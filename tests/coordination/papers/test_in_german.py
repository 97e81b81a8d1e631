"""The papers in German: no sentence left English, names as they were written."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from coordination.languages.language import CLOSE, OPEN
from coordination.languages.translation import Translation
from coordination.model import System
from coordination.papers import Asked, report_page
from coordination.papers.sections import SECTIONS
from coordination.report.wording import clean

from .conftest import LAUNCH, SYSTEMS, WHEN, Page, findings, told

DEMOS = [SYSTEMS / f"{name}-planted.yaml" for name in ("van", "tender", "cabin")]

#: A line of the diagram: a part's family, which belongs to no language, and its rating.
_FAMILY = re.compile(r"[\w -]+ \d+ A")


@pytest.mark.parametrize("path", DEMOS, ids=lambda each: each.stem)
def test_nothing_of_ours_is_left_in_english(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    left: set[str] = set()
    known = Translation.say

    def say(self: Translation, english: str) -> str:
        said = known(self, english)
        if "\ue000" in said:
            left.add(english)
        return said

    monkeypatch.setattr(Translation, "say", say)
    whole = report_page(findings(path), Asked(SECTIONS, "de", WHEN))
    assert 'lang="en"' not in whole
    assert "\ue000" not in whole
    names = set(_names(findings(path).system))
    ours = {each for each in left if not _FAMILY.fullmatch(each)}
    ours = {each for each in ours if not set(each.split(", ")) <= names}
    assert ours == set()


def _names(system: System) -> Iterator[str]:
    for things in (system.sources, system.busbars, system.equipment, system.converters):
        yield from things
    yield from (each.name for each in system.elements())


def test_figures_have_a_decimal_comma(page: Page) -> None:
    """The interrupt rating of the van's main fuse: 5 kA at 32 V, against 13.0 kA."""
    said = told(page(SYSTEMS / "van-planted.yaml", ("findings",), "de")).text
    assert "13,0 kA, mehr als 5,00 kA (Abschaltvermögen)" in said
    assert "E / R = 13,6 V / 1,05 mΩ" in said
    assert "max(13,6 V; 14,4 V; 14,4 V; 14,4 V)" in said
    assert not re.search(r"\d\.\d+ (?:kA|mΩ|V)\b", said)


def test_a_schedule_is_in_german_but_names_are_as_written(page: Page, tmp_path: Path) -> None:
    text = LAUNCH.read_text("utf-8").replace("lamps", "limit")
    path = tmp_path / "named.yaml"
    path.write_text(text, encoding="utf-8")
    said = told(page(path, ("schedules",), "de")).text
    assert "Bemessungsgleichspannung" in said
    assert "limit" in said
    assert "Grenze" not in said.partition("Was nicht geprüft")[0]


def test_a_name_that_reads_as_a_sentence_is_put_back_whole(page: Page, tmp_path: Path) -> None:
    """What a pattern takes for its own place must not lose a letter, nor be filled in."""
    text = LAUNCH.read_text("utf-8")
    text = re.sub(r"(?<=[ {\[])lamp fuse(?=[,:}\]\n])", '"{who} at 3.5 A {0}"', text)
    path = tmp_path / "named.yaml"
    path.write_text(text, encoding="utf-8")
    whole = page(path, ("findings", "points", "schedules"), "de")
    assert "{who} at 3.5 A {0}" in told(whole).text
    # The signs around English are refused in files, and shown, not sent, from anywhere else.
    assert clean(OPEN + CLOSE) == r"\ue000\ue001"


RULE = '''
from coordination.rules import Card, COMMON_PRACTICE, fail, rule

CARD = Card(
    name="no-plotters", title="There is <no> plotter", why="Paper never runs flat.",
    wrong="A plotter.", right="A chart on paper.", severity="damage", source=COMMON_PRACTICE,
)

@rule(CARD, each="fuse")
def no_plotters(fuse, study):
    return fail("a fuse that nobody likes")
'''


def test_an_outside_rule_without_german_stays_english_and_says_so(tmp_path: Path) -> None:
    from coordination.checking import Request, findings_of
    from coordination.checking.local import Local

    file = tmp_path / "yard_rules.py"
    file.write_text(RULE, encoding="utf-8")
    request = Request(str(SYSTEMS / "van-planted.yaml"), local=Local((str(file),), ()))
    whole = report_page(findings_of(request), Asked(("findings",), "de", WHEN))
    assert '<strong><span lang="en">There is &lt;no&gt; plotter</span></strong>' in whole
    assert ': <span lang="en">a fuse that nobody likes</span>.' in whole
    assert '<span lang="en">A chart on paper.</span>' in whole
    assert not re.search(r'="[^"]*<span', whole)
