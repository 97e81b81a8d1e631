"""Two editions side by side, and whom the pack speaks of."""

from __future__ import annotations

from pathlib import Path

import fusewright_us_small_craft
import pytest

from coordination.rules.host import PackHost
from coordination.testing.run import findings_of

SYSTEMS = Path(fusewright_us_small_craft.__path__[0]) / "cases" / "systems"


def names(edition: str) -> set[str]:
    packs = PackHost().load([f"us_small_craft@{edition}"])
    assert packs.problems == ()
    assert packs.packs[0].card.edition == edition
    return {rule.card.name for rule in packs.packs[0].rules}


def test_july_2025_added_two_rules_and_took_none_away():
    older, newer = names("2024"), names("2025")
    assert newer - older == {"device-per-battery", "lithium-remote-switch"}
    assert older <= newer


def test_an_unknown_edition_is_a_problem():
    assert PackHost().load(["us_small_craft@1999"]).problems


@pytest.mark.parametrize(("edition", "asked"), [("2024", False), ("2025", True)])
def test_a_pinned_edition_decides_what_is_asked_of_a_large_bank(edition, asked):
    text = (SYSTEMS / "lithium_boat.yaml").read_text("utf-8").replace("200 Ah", "400 Ah")
    for number in (1, 2):
        fuse = f"{{fuse: pack-fuse, name: fuse {number}, distance: 100 mm}}, "
        assert fuse in text
        text = text.replace(fuse, "")
    found = findings_of(f"packs: [us_small_craft@{edition}]\n{text}").findings
    per_battery = [each for each in found if each.rule == "us_small_craft/device-per-battery"]
    assert [each.verdict for each in per_battery] == (["fail", "fail"] if asked else [])


def test_what_is_no_boat_is_noted_and_not_judged():
    text = (SYSTEMS / "day_boat.yaml").read_text("utf-8").replace(
        "petrol_engine: yes", "petrol_engine: yes, use: ashore"
    )
    found = findings_of(f"packs: [us_small_craft]\n{text}").findings
    assert [(each.rule, each.verdict) for each in found] == [("us_small_craft/scope", "note")]


def test_a_diesel_boat_is_judged_by_practice_alone():
    text = (SYSTEMS / "day_boat.yaml").read_text("utf-8").replace(
        "petrol_engine: yes", "petrol_engine: no"
    )
    found = findings_of(f"packs: [us_small_craft]\n{text}").findings
    by_law = {each.rule for each in found if each.card.basis == "law"}
    assert by_law == {"us_small_craft/federal-scope"}
    assert len({each.rule for each in found if each.card.basis == "practice"}) >= 8


def test_every_law_finding_cites_the_law_and_every_practice_finding_the_practice():
    rules = PackHost().load(["us_small_craft"]).packs[0].rules
    for rule in rules:
        document = rule.card.source.document
        law = document.startswith(("33 CFR", "46 CFR"))
        assert rule.card.basis == ("law" if law else "practice"), rule.card.name
        assert law or document.startswith(("ABYC E-11", "ABYC E-13")), rule.card.name
