"""Words that packs add to the file: options and fields of parts, typed, with places in errors."""

from __future__ import annotations

from datetime import date
from types import MappingProxyType
from typing import Any

import pytest

from coordination.errors import BadInput
from coordination.reading import read_bytes
from coordination.reading.vocabulary import Vocabulary
from coordination.rules import Option, PackCard, PartField
from coordination.rules.pack import Pack, Packs
from coordination.rules.vocabulary import vocabulary

CARD = PackCard(
    name="yard", title="t", api=1, version="1", edition="e", in_force="2026-01-01",
    scope="s", not_covered=("x",),
)  # fmt: skip
PACK = Pack(
    CARD,
    (),
    options=(
        Option(name="afloat", shape="flag", meaning="whether it floats"),
        Option(name="fuel", shape="choice", meaning="what it burns", choices=("petrol", "diesel")),
        Option(name="built", shape="date", meaning="when it was built"),
        Option(name="hull", shape="quantity", dimension="length", meaning="its length"),
        Option(name="crew", shape="whole", meaning="how many", default=2),
    ),
    part_fields=(
        PartField(kind="battery", name="cranking", shape="quantity", dimension="current",
                  meaning="cold-cranking current"),
    ),
)  # fmt: skip
SYSTEM = """system: Tern
packs: [yard@e]
{options}
parts:
  cell: {{kind: battery, emf: {{min: 12 V, max: 13 V}}, resistance: {{min: 1 mΩ, max: 2 mΩ}}
    {field}}}
  wire: {{kind: cable, area: 4 mm²}}
sources: {{battery: {{part: cell}}}}
equipment: {{lamp: {{current: 1 A}}}}
circuits: {{lead: {{from: battery, to: lamp, parts: [{{cable: wire, length: 1 m}}]}}}}
"""


class Nothing:
    """A catalogue without parts."""

    def get(self, _: str, /) -> None:
        return None

    def near(self, _: str, __: str, /) -> None:
        return None


def read_with(options: str = "", field: str = "", *packs: Pack) -> Any:
    def speak(named: tuple[str, ...]) -> Vocabulary:
        return vocabulary(Packs(packs), named)

    text = SYSTEM.format(options=options, field=field)
    return read_bytes(text.encode(), "t.yaml", Nothing(), speak)


def test_options_are_typed_and_defaults_filled_in():
    stated = "options: {yard: {afloat: yes, fuel: diesel, built: 1998-04-01, hull: 26 ft}}"
    system = read_with(stated, "", PACK)
    assert system.packs == ("yard@e",)
    assert system.options["yard"] == {
        "afloat": True,
        "fuel": "diesel",
        "built": date(1998, 4, 1),
        "hull": pytest.approx(26 * 0.3048),
        "crew": 2,
    }
    assert system.written["options.yard.hull"] == "26 ft"


def test_what_is_not_stated_has_its_default_or_is_not_there():
    assert read_with("", "", PACK).options["yard"] == {"crew": 2}


def test_a_packs_field_of_a_part_is_found_under_its_full_name():
    system = read_with("", ", yard.cranking: 650 A", PACK)
    cell = system.sources["battery"].part
    assert cell.extra == {"yard.cranking": 650.0}
    assert cell.written["yard.cranking"] == "650 A"
    assert read_with("", "", PACK).sources["battery"].part.extra == {}


@pytest.mark.parametrize(
    ("options", "field", "line", "words", "near"),
    [
        ("options: {yard: {aflot: yes}}", "", 3, "unknown key 'aflot'", "afloat"),
        ("options: {yard: {fuel: petroleum}}", "", 3, "options.yard.fuel cannot be", "petrol"),
        ("options: {yard: {hull: 26}}", "", 3, "options.yard.hull", ""),
        ("options: {yard: {hull: 26 A}}", "", 3, "not amperes", ""),
        ("options: {yard: {built: 1998}}", "", 3, "is no date", ""),
        ("options: {yard: {afloat: perhaps}}", "", 3, "cannot be 'perhaps'", ""),
        ("options: {yrad: {afloat: yes}}", "", 3, "no such pack is in use", "yard"),
        ("options: {yard: yes}", "", 3, "where fields are expected", ""),
        ("", ", yard.crankin: 650 A", 6, "unknown key 'yard.crankin'", "yard.cranking"),
        ("", ", yard.cranking: 650 V", 6, "not volts", ""),
        ("", ", cranking: 650 A", 6, "unknown key 'cranking'", "yard.cranking"),
    ],
)
def test_a_mistake_is_told_with_its_place_and_a_near_miss(options, field, line, words, near):
    with pytest.raises(BadInput) as caught:
        read_with(options, field, PACK)
    (problem,) = caught.value.problems
    assert problem.line == line
    assert problem.column > 1
    assert words in problem.what
    assert problem.near_miss == near


def test_words_of_a_pack_that_is_not_there_are_passed_over():
    system = read_with("options: {yard: {afloat: yes}}", ", yard.cranking: 650 A")
    assert system.options == {}
    assert system.sources["battery"].part.extra == {}


def test_nothing_that_was_read_can_be_changed():
    system = read_with("options: {yard: {afloat: yes}}", ", yard.cranking: 650 A", PACK)
    cell = system.sources["battery"].part
    element = system.elements()[0]
    for mapping in (
        system.options, system.options["yard"], system.sources, system.circuits, system.written,
        cell.extra, cell.written, element.written, element.part.written,
        element.return_path.written, element.place.written, system.conditions["normal"].draw,
    ):  # fmt: skip
        assert isinstance(mapping, MappingProxyType)
