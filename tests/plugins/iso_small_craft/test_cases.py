"""Every rule of the pack: its cases, its card, and cases on both sides of its limit."""

from __future__ import annotations

from pathlib import Path

import fusewright_iso_small_craft
import pytest

from coordination.rules.host import PackHost
from coordination.testing import check_case, collect_cases, lacking_in_cards, lacking_in_cases

FOLDER = Path(fusewright_iso_small_craft.__path__[0])
CASES = collect_cases(FOLDER / "cases")

#: Kinds of case that cannot exist, and why.
IMPOSSIBLE = {
    "iso_small_craft/lithium-scope: no case fail": "a scope is no requirement",
    "iso_small_craft/voltage-scope: no case fail": "a scope is no requirement",
}

#: Rules whose clause was read in an edition; every other rests on memory.
READ = {
    "2012": {"conductor-size", "lithium-cells", "lithium-scope", "lithium-venting",
             "voltage-drop", "voltage-scope"},
    "2020": {"charging-source", "lithium-cells", "lithium-scope", "lithium-venting",
             "voltage-scope"},
}  # fmt: skip


def loaded(edition):
    packs = PackHost().load([f"iso_small_craft@{edition}"])
    assert packs.problems == ()
    return packs.packs[0]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_case(case):
    check_case(case)


@pytest.mark.parametrize("edition", ["2012", "2020"])
def test_every_card_names_clause_and_year_and_that_it_is_a_standard(edition):
    pack = loaded(edition)
    assert list(lacking_in_cards(pack)) == []
    assert {rule.card.basis for rule in pack.rules} == {"standard"}


def test_every_rule_has_cases_on_both_sides_of_its_limit():
    lacking = set(lacking_in_cases(loaded("2020"), CASES))
    assert lacking - set(IMPOSSIBLE) == set()
    assert set(IMPOSSIBLE) <= lacking


def test_every_rule_file_is_registered():
    written = {
        file.stem.replace("_", "-")
        for file in FOLDER.glob("*.py")
        if "    @rule(" in file.read_text("utf-8") or "    @iso_rule(" in file.read_text("utf-8")
    }
    assert written == {rule.card.name for rule in loaded("2020").rules}


@pytest.mark.parametrize("edition", ["2012", "2020"])
def test_a_rule_that_rests_on_memory_is_paperwork(edition):
    cards = [rule.card for rule in loaded(edition).rules]
    assert {card.name for card in cards if card.source.read} == READ[edition]
    assert {card.severity for card in cards if not card.source.read} == {"paperwork"}
