"""Languages: a file each, all with the same words, and none left over."""

from __future__ import annotations

import re
from pathlib import Path
from string import Formatter

import pytest

import coordination.papers
from coordination.papers.language import language, languages
from coordination.report.limits import CAUTIONS, NEVER_CHECKED

from .conftest import LAUNCH, SYSTEMS, Page, findings, told

FOLDER = Path(coordination.papers.__file__).parent
OTHERS = [code for code in languages() if code != "en"]


def test_there_are_two() -> None:
    assert languages() == ("de", "en")


@pytest.mark.parametrize("code", OTHERS)
def test_a_translation_has_the_same_words(code: str) -> None:
    here, there = language("en").text, language(code).text
    assert set(here) == set(there)
    for key, words in here.items():
        assert words.count(" | ") == there[key].count(" | "), key
        assert _places(words) == _places(there[key]), key


def _places(words: str) -> set[str]:
    return {name for _, name, _, _ in Formatter().parse(words) if name}


def test_every_word_asked_for_is_there_and_none_is_idle() -> None:
    files = (*FOLDER.rglob("*.py"), *FOLDER.rglob("*.j2"))
    text = "\n".join(file.read_text("utf-8") for file in files)
    keys = set(language("en").text)
    asked = set(re.findall(r'(?:\bt|words)\(\s*["\']([a-z_.]+[a-z_])["\']', text))
    assert asked <= keys
    # The rest is asked for by a key made of two halves: "verdict." and a verdict.
    halves = set(re.findall(r'"([a-z]+\.)"\s*~|f"([a-z]+\.)\{', text))
    begun = {each for pair in halves for each in pair if each}
    tables = {"conditions", "batteries", "limited", "places", "packs", "options", "waivers"}
    for key in keys - asked:
        start = f"{key.partition('.')[0]}."
        named = f'"{key}"' in text or f'"{key.partition(".")[2]}"' in text
        assert start in begun or named or start.rstrip(".") in tables, key


@pytest.mark.parametrize("code", OTHERS)
def test_what_every_report_says_is_translated(code: str) -> None:
    phrases = language(code).phrases
    for sentence in (*CAUTIONS, *NEVER_CHECKED):
        assert phrases[sentence] != sentence


@pytest.mark.parametrize("code", OTHERS)
def test_no_phrase_is_stale(code: str) -> None:
    """Every phrase is one that the report, a schedule or the page itself still says."""
    root = FOLDER.parent
    sources = [*(root / "report").rglob("*.py"), *(root / "schedules").rglob("*.py"),
               *(root / "model.py", root / "papers" / "found.py")]  # fmt: skip
    said = "\n".join(file.read_text("utf-8") for file in sources)
    joined = re.sub(r'"\s*\n\s*"', "", said)
    joined = joined.replace("{LOADED}", "all drawing for 20 to 30 min")
    kinds = {"cable", "busbar", "battery", "joint", "channel", "positive", "return"}
    stale = [each for each in language(code).phrases if each not in joined and each not in kinds]
    assert stale == []


def test_a_schedule_is_in_german_but_names_are_as_written(page: Page, tmp_path: Path) -> None:
    text = LAUNCH.read_text("utf-8").replace("lamps", "limit")
    path = tmp_path / "named.yaml"
    path.write_text(text, encoding="utf-8")
    said = told(page(path, ("schedules",), "de")).text
    assert "Nenngleichspannung" in said
    assert "limit" in said
    assert "Grenze" not in said.partition("Was nicht geprüft")[0]


def test_it_says_what_stays_english(page: Page) -> None:
    whole = page(SYSTEMS / "van-planted.yaml", ("findings",), "de")
    assert 'lang="de"' in whole
    assert "auf Englisch" in told(whole).text
    fail = next(each for each in findings(SYSTEMS / "van-planted.yaml").findings
                if each.verdict == "fail")  # fmt: skip
    assert f'<strong lang="en">{fail.card.title}</strong>' in whole


def test_an_unknown_language_is_refused() -> None:
    with pytest.raises(KeyError):
        language("xx")
    with pytest.raises(KeyError):
        language("../languages/en")
