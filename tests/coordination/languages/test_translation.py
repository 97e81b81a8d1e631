"""A translation: sentences with names and figures in them, and what has no words."""

from __future__ import annotations

import pytest

from coordination.languages.files import language, words_of
from coordination.languages.language import CLOSE, ENGLISH, OPEN, plain
from coordination.languages.translation import Translation

WORDS = Translation(
    "xx",
    {"greet": "salve {who}"},
    {
        "load": "onus",
        "current of {name}": "fluxus {name}",
        "{what:words}, at most": "{what}, summum",
        "{much:figure} at {volts:figure}": "{much} apud {volts}",
        "state {what} (in the file)": "dic {what} (in tabula)",
        "line {number}": "linea {number}",
    },
)


def test_english_is_left_as_it_is() -> None:
    assert ENGLISH.say("current of pump") == "current of pump"
    assert ENGLISH.put("state {what} (in the file)", what="a {b}") == "state a {b} (in the file)"
    assert ENGLISH.figure("13.6 V") == "13.6 V"


def test_a_sentence_is_found_whatever_name_is_in_it() -> None:
    assert WORDS.say("current of bilge pump 2.5") == "fluxus bilge pump 2.5"
    assert WORDS.say("current of load") == "fluxus load"
    assert WORDS.say("current of {name}") == "fluxus {name}"
    assert WORDS.say("current of {0!r}, at most") == "fluxus {0!r}, summum"


@pytest.mark.parametrize(
    ("english", "said"),
    [
        ("13.6 V", "13,6 V"),
        ("≤ 5.00 kA", "≤ 5,00 kA"),
        ("1.32 × 10⁶ A²s", "1,32 × 10⁶ A²s"),
        ("5.5 kA at 32.0 V", "5,5 kA apud 32,0 V"),
        ("-12.5 °C", "-12,5 °C"),
        ("300 A", "300 A"),
        ("12.5%", "12,5 %"),
    ],
)
def test_figures_have_the_languages_decimal_sign(english: str, said: str) -> None:
    assert WORDS.say(english) == said


@pytest.mark.parametrize("name", ["183.455(b)", "1.2.3", "v0.1.0", "cabin.yaml:14", "T-1.5x.2"])
def test_what_is_no_figure_keeps_its_points(name: str) -> None:
    assert plain(WORDS.say(name)) == name


def test_a_comma_between_figures_does_not_become_a_decimal_one() -> None:
    assert WORDS.formula("max(13.6 V, 14.4 V)") == "max(13,6 V; 14,4 V)"


def test_what_has_no_words_is_marked() -> None:
    assert WORDS.say("quite another thing") == f"{OPEN}quite another thing{CLOSE}"
    assert plain(WORDS.say("quite another thing")) == "quite another thing"
    # A part without words leaves the whole English: half a sentence helps nobody.
    assert WORDS.say("another thing, at most") == f"{OPEN}another thing, at most{CLOSE}"
    assert WORDS.say("") == ""


def test_fields_of_the_file_are_no_language() -> None:
    assert WORDS.lack("fuse-t-300: interrupt_ratings") == "fuse-t-300: interrupt_ratings"
    assert WORDS.lack("pump: load") == "pump: load"
    assert WORDS.lack("pump: current of load") == "pump: fluxus load"
    assert WORDS.lack("pump: what it is") == f"pump: {OPEN}what it is{CLOSE}"
    assert WORDS.cite("fuse-t-300: curve.min_melt, line 14") == (
        "fuse-t-300: curve.min_melt, linea 14"
    )
    assert WORDS.cite("NFPA 70:2023") == "NFPA 70:2023"
    assert WORDS.cite("ratings of the text itself") == f"{OPEN}ratings of the text itself{CLOSE}"


def test_a_sentence_that_leads_to_itself_ends() -> None:
    endless = Translation("xx", {}, {"{what:words}": "o {what}", "{what:words}.": "{what}!"})
    assert plain(endless.say("a.b.")) == "a.b."


def test_a_package_without_words_gives_none() -> None:
    assert words_of("json", "de") == {}
    assert words_of("no_such_package", "de") == {}


def test_an_unknown_language_is_refused() -> None:
    for code in ("xx", "../languages/en", ""):
        with pytest.raises(KeyError):
            language(code)
