"""What every built-in pack owes: its rules' cases, full cards, cases on both sides of a limit."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import pytest

from coordination.testing import (
    check_case,
    collect_cases,
    installed_pack,
    lacking_in_cards,
    lacking_in_cases,
    unregistered,
)

PACKS = (
    "fundamentals", "us_small_craft", "iso_small_craft", "us_premises", "iec_low_voltage", "budget",
    "continuity",
)  # fmt: skip
FOLDERS = {name: Path(import_module(f"fusewright_{name}").__path__[0]) for name in PACKS}
CASES = {name: collect_cases(folder / "cases") for name, folder in FOLDERS.items()}

_STATED = "the file states it: there is nothing to be just inside or outside of"
_SCOPE = "a scope is no requirement"
#: Kinds of case that cannot exist, and why.
IMPOSSIBLE = {
    "fundamentals/parts-reviewed: no case unproven": "a status that is not stated is noted",
    **{
        f"fundamentals/busbar-force: no case {kind}": "it only tells a number, and limits nothing"
        for kind in ("pass", "fail", "inside", "outside")
    },
    "iso_small_craft/lithium-scope: no case fail": _SCOPE,
    "iso_small_craft/voltage-scope: no case fail": _SCOPE,
    "us_small_craft/federal-scope: no case fail": _SCOPE,
    "us_small_craft/practice-scope: no case fail": _SCOPE,
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
        f"us_small_craft/inspected-vessel: no case {kind}": "it notes what another chapter asks"
        for kind in ("pass", "fail", "unproven", "inside", "outside")
    },
}  # fmt: skip


@pytest.mark.parametrize(
    "case", [each for cases in CASES.values() for each in cases], ids=lambda c: f"{c.rule}-{c}"
)
def test_case(case):
    check_case(case)


@pytest.mark.parametrize("name", [*PACKS, "iso_small_craft@2012"])
def test_every_card_names_clause_and_year_or_says_that_it_is_practice(name):
    assert list(lacking_in_cards(installed_pack(name))) == []


@pytest.mark.parametrize("name", PACKS)
def test_every_rule_has_cases_on_both_sides_of_its_limit(name):
    impossible = {each for each in IMPOSSIBLE if each.startswith(f"{name}/")}
    assert set(lacking_in_cases(installed_pack(name), CASES[name])) == impossible


@pytest.mark.parametrize("name", PACKS)
def test_every_rule_file_is_registered(name):
    assert list(unregistered(installed_pack(name), FOLDERS[name])) == []


@pytest.mark.parametrize("name", ["us_premises", "iec_low_voltage", "iso_small_craft"])
def test_what_was_not_read_is_paperwork(name):
    cards = [rule.card for rule in installed_pack(name).rules]
    assert {card.severity for card in cards if not card.source.read} == {"paperwork"}
