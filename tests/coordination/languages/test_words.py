"""The files of words: complete, and alike in keys and places."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

import coordination
from coordination.languages.files import OWN, language, languages, words_of
from coordination.report.limits import CAUTIONS, NEVER_CHECKED
from coordination.report.speakers import packages_of
from coordination.rules.host import PackHost
from coordination.rules.pack import Pack
from coordination.schedules import (
    NAMES,
    busbars,
    cables,
    commissioning,
    devices,
    energy,
    labels,
    loads,
    shore,
)

ROOT = Path(coordination.__file__).parent
PAPERS = ROOT / "papers"
BUILT_IN = (
    "fundamentals", "us_small_craft", "iso_small_craft", "us_premises", "iec_low_voltage",
    "continuity", "budget",
)  # fmt: skip
OTHERS = [code for code in languages() if code != "en"]
_PLACE = re.compile(r"\{(\w+)(?::\w+)?\}")


def test_there_are_two() -> None:
    assert languages() == ("de", "en")


@pytest.mark.parametrize("code", OTHERS)
def test_a_translation_has_the_same_keys(code: str) -> None:
    here, there = language("en").text, language(code).text
    assert set(here) == set(there)
    for key, words in here.items():
        assert words.count(" | ") == there[key].count(" | "), key
        assert set(_PLACE.findall(words)) == set(_PLACE.findall(there[key])), key


def test_every_word_asked_for_is_there_and_none_is_idle() -> None:
    files = (*PAPERS.rglob("*.py"), *PAPERS.rglob("*.j2"))
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
@pytest.mark.parametrize("package", [OWN, *(f"fusewright_{name}" for name in BUILT_IN)])
def test_a_phrase_keeps_its_places(code: str, package: str) -> None:
    """In a pack's exact sentences braces are those of the system file, and stay as they are."""
    PackHost().load(BUILT_IN)
    phrases = words_of(package, code)["phrases"]
    for english, said in phrases.items():
        assert said.strip(), english
        assert set(_PLACE.findall(english)) == set(_PLACE.findall(said)), english


@pytest.mark.parametrize("code", OTHERS)
def test_what_the_code_fills_in_itself_is_translated(code: str) -> None:
    """Whatever is given to `put` in the code is a key of the file."""
    phrases = words_of(OWN, code)["phrases"]
    sentences = {each for path in ROOT.rglob("*.py") for each in _put(path)}
    assert len(sentences) > 15
    assert sentences - set(phrases) == set()


def _put(path: Path) -> Iterator[str]:
    """Sentences with places that are written where `put` is asked, or under a name for it."""
    tree = ast.parse(path.read_text("utf-8"))
    named = {
        target.id: node.value
        for node in tree.body
        if isinstance(node, ast.Assign)
        for target in node.targets
        if isinstance(target, ast.Name)
    }
    for node in ast.walk(tree):
        if not isinstance(node, ast.Call) or not node.args:
            continue
        if getattr(node.func, "attr", getattr(node.func, "id", "")) != "put":
            continue
        given = node.args[0]
        source = given.value if isinstance(given, ast.Subscript) else given
        if isinstance(source, ast.Name):
            source = named.get(source.id, source)
        values = source.values if isinstance(source, ast.Dict) else [source]
        yield from (each.value for each in values
                    if isinstance(each, ast.Constant) and isinstance(each.value, str))  # fmt: skip


@pytest.mark.parametrize("code", OTHERS)
def test_what_every_report_says_is_translated(code: str) -> None:
    words = language(code)
    for sentence in (*CAUTIONS, *NEVER_CHECKED):
        assert words.say(sentence) != sentence
        assert "\ue000" not in words.say(sentence)


@pytest.mark.parametrize("code", OTHERS)
def test_every_heading_of_every_schedule_is_translated(code: str) -> None:
    words = language(code)
    kinds = (devices, cables, busbars, loads, energy, shore, labels, commissioning)
    assert len(kinds) == len(NAMES)
    for module in kinds:
        assert "\ue000" not in words.say(module.TITLE)
        for field in module._FIELDS:
            told = "".join(map(words.say, (field.name, field.purpose, field.source)))
            assert "\ue000" not in told, (module.__name__, field)


@pytest.mark.parametrize("code", OTHERS)
@pytest.mark.parametrize("pack", PackHost().load(BUILT_IN).packs, ids=lambda each: each.card.name)
def test_the_cards_of_our_packs_are_translated(code: str, pack: Pack) -> None:
    words = language(code, packages_of([pack]))
    card = pack.card
    said = [card.title, card.scope, card.edition, *card.not_covered]
    for rule in pack.rules:
        said += [rule.card.title, rule.card.why, rule.card.wrong, rule.card.right]
    said += [each.meaning for each in pack.options]
    said += [each.meaning for each in pack.part_fields]
    said += [basis.title for basis in pack.bases]
    assert [each for each in said if "\ue000" in words.say(each)] == []
