"""What the pack brings beside rules: ratings, bases, options, and the label of the report."""

from __future__ import annotations

from pathlib import Path

import fusewright_us_premises
import pytest
from fusewright_us_premises.editions import Y2023
from fusewright_us_premises.label_section import sections
from fusewright_us_premises.options import OPTIONS
from fusewright_us_premises.pack import (
    fusewright_ampacity_bases,
    fusewright_pack,
    fusewright_standard_ratings,
)

from coordination.errors import BadInput
from coordination.testing.run import findings_of

CABIN = Path(fusewright_us_premises.__path__[0]) / "cases" / "systems" / "cabin.yaml"


def cabin(*changes: tuple[str, str]) -> str:
    text = CABIN.read_text(encoding="utf-8")
    for old, new in (("system: cabin", "system: cabin\npacks: [us_premises]"), *changes):
        assert old in text
        text = text.replace(old, new)
    return text


def test_standard_ratings_are_offered_and_marked_as_from_memory() -> None:
    (found,) = fusewright_standard_ratings("2023")
    assert found.name == "us-nfpa70-240.6"
    assert found.ratings[:5] == (10, 15, 20, 25, 30)
    assert not found.source.read


def test_editions_newest_last_and_only_2023_was_read_for_its_tables() -> None:
    assert [card.edition for card in fusewright_pack()] == ["2014", "2017", "2020", "2023"]
    read = {
        card.edition: fusewright_ampacity_bases(card.edition)[0].source.read
        for card in fusewright_pack()
    }
    assert read == {"2014": False, "2017": False, "2020": False, "2023": True}


@pytest.mark.parametrize(
    ("basis", "expected"),
    [
        # 2 AWG: 130 A in a raceway, 190 A in free air; terminals for 75 °C are another rule's.
        ("us-nfpa70-310.16", 130.0),
        ("us-nfpa70-310.17", 190.0),
    ],
)
def test_a_basis_named_in_the_file_is_used(basis: str, expected: float) -> None:
    packs = ("[us_premises]", f"[us_premises]\nampacity: {basis}")
    study = findings_of(cabin(packs)).studies["normal"]
    lead = next(each for each in study.system.elements() if each.name == "lead")
    assert study.ampacity(lead, study.legs(lead)[0]).value == expected


def test_every_option_is_a_question_with_an_answer() -> None:
    assert len({option.name for option in OPTIONS}) == len(OPTIONS) == 8
    for option in OPTIONS:
        assert bool(option.choices) is (option.shape == "choice"), option.name
        assert bool(option.dimension) is (option.shape == "quantity"), option.name
        assert option.default is None, option.name


def test_a_misspelt_option_names_the_right_one() -> None:
    with pytest.raises(BadInput) as raised:
        findings_of(cabin(("{use: premises}", "{use: premises, wireing: raceway}")))
    (problem,) = raised.value.problems
    assert "wireing" in problem.what
    assert "wiring" in f"{problem.what} {problem.near_miss}"


def test_the_label_tells_voltage_and_current() -> None:
    """54.4 V / 8 mΩ = 6800 A; 51.2 V is not above 60 V."""
    (section,) = sections(findings_of(cabin()), Y2023)
    assert section.rows == (("bank", "51.2 V", "6800 A", "no"),)
    assert all(len(row) == len(section.headings) for row in section.rows)


def test_the_label_says_what_is_not_known() -> None:
    unknown = ("    resistance: {min: 8 mΩ, max: 12 mΩ}\n", "")
    above = ("nominal_voltage: 51.2 V", "nominal_voltage: 64 V")
    (section,) = sections(findings_of(cabin(unknown, above)), Y2023)
    assert section.rows == (("bank", "64 V", "not known", "yes"),)
