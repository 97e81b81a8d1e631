"""Every rule of the built-in pack: its cases, its card, and cases on both sides of its limit."""

from __future__ import annotations

from pathlib import Path

import fusewright_fundamentals
import pytest

from coordination.rules.host import PackHost
from coordination.testing import check_case, collect_cases, lacking_in_cards, lacking_in_cases

CASES = collect_cases(Path(fusewright_fundamentals.__path__[0]) / "cases")

#: Kinds of case that cannot exist, and why.
IMPOSSIBLE = {
    "fundamentals/parts-reviewed: no case unproven": "a status that is not stated is noted",
    **{
        f"fundamentals/busbar-force: no case {kind}": "it only tells a number, and limits nothing"
        for kind in ("pass", "fail", "inside", "outside")
    },
}


@pytest.fixture(scope="module")
def pack():
    packs = PackHost().load(["fundamentals"])
    assert packs.problems == ()
    return packs.packs[0]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_case(case):
    check_case(case)


def test_every_card_names_clause_and_year_or_says_that_it_is_practice(pack):
    assert list(lacking_in_cards(pack)) == []


def test_every_rule_has_cases_on_both_sides_of_its_limit(pack):
    lacking = set(lacking_in_cases(pack, CASES))
    assert lacking - set(IMPOSSIBLE) == set()
    assert set(IMPOSSIBLE) <= lacking


def test_every_rule_file_is_registered(pack):
    folder = Path(fusewright_fundamentals.__path__[0])
    written = {
        file.stem.replace("_", "-") for file in folder.glob("*.py") if "@rule(" in file.read_text()
    }
    assert written == {rule.card.name for rule in pack.rules}
