"""Every rule of the pack: its cases, its card, and cases on both sides of its limit."""

from __future__ import annotations

from pathlib import Path

import fusewright_iec_low_voltage
import pytest

from coordination.rules.host import PackHost
from coordination.testing import check_case, collect_cases, lacking_in_cards, lacking_in_cases

FOLDER = Path(fusewright_iec_low_voltage.__path__[0])
CASES = collect_cases(FOLDER / "cases")


@pytest.fixture(scope="module")
def pack():
    packs = PackHost().load(["iec_low_voltage"])
    assert packs.problems == ()
    return packs.packs[0]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_case(case):
    check_case(case)


def test_every_card_names_clause_and_year(pack):
    assert list(lacking_in_cards(pack)) == []


def test_every_rule_has_cases_on_both_sides_of_its_limit(pack):
    assert list(lacking_in_cases(pack, CASES)) == []


def test_every_rule_file_is_registered(pack):
    written = {
        file.stem.replace("_", "-") for file in FOLDER.glob("*.py") if "@rule(" in file.read_text()
    }
    assert written == {rule.card.name for rule in pack.rules}


def test_what_was_not_read_is_paperwork(pack):
    for rule in pack.rules:
        assert rule.card.source.read or rule.card.severity == "paperwork", rule.card.name
