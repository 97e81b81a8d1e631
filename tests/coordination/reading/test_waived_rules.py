"""A waiver names a rule that there is: one that is misspelt would leave its fail unwaived."""

from __future__ import annotations

import pytest

from coordination.errors import BadInput
from coordination.testing.run import findings_of

SYSTEM = """system: lamp
packs: [fundamentals, PACKS]
parts:
  cell: {kind: battery, emf: {min: 12 V, max: 13 V}, resistance: {min: 1 mΩ, max: 2 mΩ}}
  wire: {kind: cable, area: 4 mm²}
sources: {battery: {part: cell}}
equipment: {lamp: {current: 1 A}}
circuits: {lead: {from: battery, to: lamp, parts: [{cable: wire, length: 1 m}]}}
waivers:
  - {rule: RULE, subject: lead/1, reason: a test, by: the yard, date: 2026-03-02}
"""


def read(rule: str, packs: str = ""):
    return findings_of(SYSTEM.replace(", PACKS", packs).replace("RULE", rule))


@pytest.mark.parametrize(
    ("rule", "near"),
    [
        ("fundamentals/sorce-protection", "fundamentals/source-protection"),
        ("fundamentls/source-protection", "fundamentals/source-protection"),
        ("fundamentals/zzz", ""),
    ],
)
def test_a_rule_that_there_is_not_is_noted_where_it_stands(rule, near):
    with pytest.raises(BadInput) as caught:
        read(rule)
    (problem,) = caught.value.problems
    assert (problem.line, problem.column) == (10, 12)
    assert problem.what == f"no pack in use has a rule '{rule}'"
    assert problem.near_miss == near


def test_a_rule_that_there_is_waives_its_fail():
    found = {each.rule: each.verdict for each in read("fundamentals/source-protection").findings}
    assert found["fundamentals/source-protection"] == "waived"


@pytest.mark.parametrize(("rule", "packs"), [
    ("us_small_craft/trip-free-breaker", ""),
    ("nowhere/a-rule", ", nowhere"),
])  # fmt: skip
def test_a_rule_of_a_pack_that_is_not_there_today_is_only_remarked(rule, packs):
    problems = [each for each in read(rule, packs).problems if each.kind == "waiver"]
    assert [each.what for each in problems] == [
        f"the waiver of {rule} for lead/1 matches no finding"
    ]
