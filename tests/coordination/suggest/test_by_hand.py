"""Suggestions for small systems whose smallest cure is worked out by hand."""

from __future__ import annotations

import pytest

from tests.coordination.suggest.conftest import BANK, Kit, cable, changes_of, fuse

C10, C35 = cable(10, 6.0), cable(35, 9.9)


def test_the_one_part_that_breaks_the_fault_is_found(kit: Kit) -> None:
    """27.2 V / 1.7 mΩ = 16.0 kA on the post; the charge voltage is 28.8 V; the load is 85 A.

    Of the others one breaks 10 kA only, one holds 24 V only, one is for 60 A; 300 A is beyond what
    is tried.
    """
    parts = [
        fuse(100, "5 kA", 32, "sb-100"), fuse(125, "10 kA", name="half"),
        fuse(110, "20 kA", 24, "low"), fuse(60), fuse(300), fuse(110, name="right"), C35,
    ]  # fmt: skip
    path = kit.one("sb-100", "cable-35", 85, parts)
    answer = kit.ask(path, "main fuse")
    assert [each.rule for each in answer.targets] == ["fundamentals/interrupt-rating"]
    assert changes_of(answer) == [{("part", "main fuse", "right")}]
    assert answer.exhausted
    assert answer.exit_status == 0
    (fixed,) = answer.cures[0].fixed
    assert fixed.after is not None
    assert fixed.after.margin == pytest.approx(20_000 / 16_000)
    assert kit.verdicts(answer.cures[0].text)["interrupt-rating", "main fuse"] == "pass"


def test_a_thin_cable_is_made_larger(kit: Kit) -> None:
    """10 mm² of 105 °C bears 97.5 A at 25 °C (worked out in cabin-planted.expected.yaml, C-3); the
    fuse is 125 A, the load 110 A, so no smaller fuse will do; 35 mm² bears it (cabin-cured).
    """
    path = kit.one("t-125", "cable-10", 110, [fuse(125), fuse(100), C10, C35])
    answer = kit.ask(path, "run")
    assert {each.rule for each in answer.targets} >= {"fundamentals/cable-overload"}
    assert changes_of(answer) == [{("cable", "run", "cable-35")}]


def test_an_empty_window_needs_a_fuse_and_a_cable(kit: Kit) -> None:
    """The load of 122 A is 1.25 times the 97.5 A of 10 mm²: no fuse lies between them. 125 A and
    35 mm² hold; the fuse alone would outgrow the cable, the cable alone leaves the fuse at 100 A.
    """
    path = kit.one("t-100", "cable-10", 122, [fuse(100), fuse(125), C10, C35])
    answer = kit.ask(path, "main fuse")
    assert changes_of(answer) == [{("part", "main fuse", "t-125"), ("cable", "run", "cable-35")}]
    assert "fail" not in kit.verdicts(answer.cures[0].text).values()


def test_more_changes_than_asked_for_are_not_looked_at(kit: Kit) -> None:
    path = kit.one("t-100", "cable-10", 122, [fuse(100), fuse(125), C10, C35])
    answer = kit.ask(path, "main fuse", changes=1)
    assert not answer.cures
    assert answer.exit_status == 1


TWO = """\
system: Two ways
nominal_voltage: 24 V
places:
  locker: {ambient: 25 °C}
sources:
  house: {part: bank, place: locker}
busbars:
  bus: {part: bar, place: locker}
equipment:
  pump: {current: 70 A, critical: no, drop_limit: 10 %, place: locker}
  lamp: {current: 5 A, critical: no, drop_limit: 10 %, place: locker}
circuits:
  feed:
    from: house
    to: bus
    place: locker
    parts: [{fuse: t-100, name: main fuse, distance: 100 mm},
      {cable: cable-16, length: 1 m, name: main run}]
  pump way:
    from: bus
    to: pump
    place: locker
    parts: [{fuse: t-80, name: pump fuse}, {cable: cable-16, length: 1 m, name: pump run}]
  lamp way:
    from: bus
    to: lamp
    place: locker
    parts: [{fuse: t-10, name: lamp fuse}, {cable: cable-16, length: 1 m, name: lamp run}]
parts:
  bar: {kind: busbar, rated_current: 400 A, voltage: 60 V, material: copper, width: 40 mm,
    thickness: 5 mm, short_time: {current: 25 kA, time: 1 s}, status: reviewed,
    reviewed: 2026-03-01, document: sheet, page: 1}
"""


def _two(*more: str) -> str:
    fuses = (fuse(10), fuse(80), fuse(100), fuse(200))
    return TWO + BANK + "".join((*fuses, cable(16, 7.1), *more))


def test_a_conflict_without_a_cure_names_its_rules_and_the_least_waiver(kit: Kit) -> None:
    """80 A under 100 A of one class: the fuse above opens first. 200 A would hold (2.5 to 1), but
    16 mm² bears less than 200 A, and no larger cable is there; the pump needs its 70 A.
    """
    answer = kit.ask(kit.write(_two()), "pump fuse")
    assert not answer.cures
    assert answer.exhausted
    assert answer.exit_status == 1
    conflict = answer.conflict
    assert conflict is not None
    assert "fundamentals/selectivity" in conflict.rules
    assert {"fundamentals/cable-overload", "fundamentals/return-conductor"} & set(conflict.rules)
    assert [(each.rule, each.subject) for each in conflict.waivers] == [
        ("fundamentals/selectivity", "pump fuse")
    ]
    assert not conflict.by


def test_the_same_conflict_with_a_larger_cable_is_solved_as_a_set(kit: Kit) -> None:
    """70 mm² bears 200 A (the inverter of tender-cured: 95 mm² under 200 A; van-cured: 70 mm²)."""
    answer = kit.ask(kit.write(_two(cable(70, 13.5))), "pump fuse")
    assert changes_of(answer)[0] == {
        ("part", "main fuse", "t-200"), ("cable", "main run", "cable-70"),
    }  # fmt: skip
    assert "fail" not in kit.verdicts(answer.cures[0].text).values()


def test_a_bare_cable_gets_a_fuse_at_its_battery(kit: Kit) -> None:
    """No device anywhere: 100 A is more than the load of 85 A, less than the 35 mm² bear."""
    text = kit.one("t-100", "cable-35", 85, [fuse(100), C35]).read_text("utf-8")
    fused = "      - {fuse: t-100, name: 'main fuse', distance: 100 mm}   # on the post\n"
    assert fused in text
    answer = kit.ask(kit.write(text.replace(fused, "")), "run")
    assert [each.sort for each in answer.cures[0].changes] == ["device"]
    assert "- {fuse: t-100, name: feed fuse, distance: 120 mm}\n" in answer.cures[0].text
    found = kit.verdicts(answer.cures[0].text)
    assert found["source-protection", "run"] == "pass"
    assert found["interrupt-rating", "feed fuse"] == "pass"


def test_a_thin_return_is_made_equal(kit: Kit) -> None:
    """The red leg is 35 mm², the black one 10 mm²: 97.5 A under a fuse of 125 A."""
    text = kit.one("t-125", "cable-35", 110, [fuse(125), C10, C35]).read_text("utf-8")
    thin = text.replace("length: 1 m\n", "length: 1 m\n        return: {cable: cable-10}  # thin\n")
    answer = kit.ask(kit.write(thin), "run")
    assert changes_of(answer)[0] == {("return", "run", "cable-35")}
    assert "return: {cable: cable-35}  # thin\n" in answer.cures[0].text


def test_a_device_too_far_from_its_battery_is_moved_nearer(kit: Kit) -> None:
    """300 mm of bare conductor are more than 178 mm (33 CFR 183.455)."""
    text = kit.one("t-100", "cable-35", 85, [fuse(100), C35]).read_text("utf-8")
    far = kit.write(text.replace("distance: 100 mm", "distance: 300 mm, sheathed: no"))
    answer = kit.ask(far, "run")
    assert changes_of(answer)[0] == {("distance", "main fuse", "120 mm")}


def test_a_long_cable_is_shortened_no_more_than_was_said(kit: Kit) -> None:
    """Hot worst-case copper, 0.554 mΩ/m × 339.5 / 254.5 = 0.739 mΩ/m, out and back over 10 m at
    85 A: 1.256 V; the battery's 85 A × 3.2 mΩ is no drop of the cable. 5 % of 24 V are 1.2 V.
    """
    text = kit.one("t-100", "cable-35", 85, [fuse(100), C35]).read_text("utf-8")
    long = text.replace("length: 1 m", "length: 10 m")
    long = long.replace("drop_limit: 10 %", "drop_limit: 5 %")
    answer = kit.ask(kit.write(long), "machine")
    assert changes_of(answer)[0] == {("length", "run", "8.75 m")}
    assert not kit.ask(kit.write(long), "machine", shorten=0.02).cures


def test_parts_that_state_too_little_are_no_candidates(kit: Kit) -> None:
    """The generic fuses state no resistance: with one of them the drop would be unproven."""
    path = kit.one("sb-100", "cable-35", 85, [fuse(100, "5 kA", 32, "sb-100"), C35])
    answer = kit.ask(path, "main fuse")
    assert not answer.cures
    (wanted,) = answer.wanted
    assert wanted.name == "main fuse"
    assert wanted.needs.duty == pytest.approx(16_000)
    assert wanted.needs.voltage == pytest.approx(28.8)
    assert len(wanted.choice.silent) > 10


def test_a_retired_part_is_no_candidate(kit: Kit) -> None:
    retired = fuse(110, name="gone").replace("status: reviewed", "status: retired")
    path = kit.one("sb-100", "cable-35", 85, [fuse(100, "5 kA", 32, "sb-100"), retired, C35])
    assert not kit.ask(path, "main fuse").cures


def test_what_passes_needs_no_change(kit: Kit) -> None:
    answer = kit.ask(kit.one("t-100", "cable-35", 85, [fuse(100), C35]), "main fuse")
    assert not answer.targets
    assert answer.exit_status == 0
    assert answer.judged == 0
