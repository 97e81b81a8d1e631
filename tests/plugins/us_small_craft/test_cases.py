"""Every rule of the pack: its cases, its card, and cases on both sides of its limit."""

from __future__ import annotations

from pathlib import Path

import fusewright_us_small_craft
import pytest

from coordination.rules.host import PackHost
from coordination.testing import check_case, collect_cases, lacking_in_cards, lacking_in_cases

FOLDER = Path(fusewright_us_small_craft.__path__[0])
CASES = collect_cases(FOLDER / "cases")

_STATED = "the file states it: there is nothing to be just inside or outside of"
_SCOPE = "a scope is no requirement"
_NOTES = "it only notes what another chapter asks"
#: Kinds of case that cannot exist, and why.
IMPOSSIBLE = {
    **{
        f"us_small_craft/{rule}: no case {edge}": _STATED
        for rule in (
            "battery-installation", "engine-ground-tie", "federal-scope", "ignition-protection",
            "lithium-alarm", "lithium-cell-standard", "lithium-management",
            "lithium-remote-switch", "trip-free-breaker",
        )
        for edge in ("inside", "outside")
    },
    **{
        f"us_small_craft/inspected-vessel: no case {kind}": _NOTES
        for kind in ("pass", "fail", "unproven", "inside", "outside")
    },
    "us_small_craft/federal-scope: no case fail": _SCOPE,
    "us_small_craft/practice-scope: no case fail": _SCOPE,
}  # fmt: skip


@pytest.fixture(scope="module")
def pack():
    packs = PackHost().load(["us_small_craft"])
    assert packs.problems == ()
    return packs.packs[0]


@pytest.mark.parametrize("case", CASES, ids=str)
def test_case(case):
    check_case(case)


def test_every_card_names_clause_and_year(pack):
    assert list(lacking_in_cards(pack)) == []


def test_every_rule_has_cases_on_both_sides_of_its_limit(pack):
    lacking = set(lacking_in_cases(pack, CASES))
    assert lacking - set(IMPOSSIBLE) == set()
    assert set(IMPOSSIBLE) <= lacking


def test_every_rule_file_is_registered(pack):
    written = {
        file.stem.replace("_", "-")
        for file in FOLDER.glob("*.py")
        if "@rule(" in file.read_text() or "@law_rule(" in file.read_text()
    }
    assert written == {rule.card.name for rule in pack.rules}


def test_every_rule_says_in_its_title_whether_it_is_law_or_practice(pack):
    for rule in pack.rules:
        law = rule.card.basis == "law"
        assert rule.card.title.startswith("Law: " if law else "Practice: "), rule.card.name


def test_a_rule_that_rests_on_memory_is_paperwork(pack):
    unread = [rule.card for rule in pack.rules if not rule.card.source.read]
    assert {card.name for card in unread} == {
        "panel-feed", "practice-charging-device", "practice-device-rating",
    }  # fmt: skip
    assert {card.severity for card in unread} == {"paperwork"}
