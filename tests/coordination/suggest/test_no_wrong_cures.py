"""What is never offered: a fail that hides, a waiver that covers anew, a fail made unproven."""

from __future__ import annotations

from coordination.suggest.change import SORTS
from tests.coordination.suggest.conftest import Kit, cable, changes_of, fuse
from tests.coordination.suggest.test_by_hand import _two

C10, C35 = cable(10, 6.0), cable(35, 9.9)


def test_only_parts_lengths_and_places_of_devices_are_changed() -> None:
    """No sort of change opens, closes, removes or leaves out anything, or touches a waiver."""
    assert set(SORTS) == {"part", "device", "moved", "distance", "return", "cable", "length"}


def test_nothing_that_is_there_goes_or_changes_its_position(kit: Kit) -> None:
    """The link is closed as drawn and carries the fault: opening it would mend everything."""
    text = _two(fuse(125))
    linked = text.replace(
        "    parts: [{fuse: t-80, name: pump fuse},",
        "    parts: [{disconnect: sw, name: link, normally: closed},\n"
        "      {fuse: t-80, name: pump fuse},",
    ) + (
        "  sw: {kind: disconnect, rated_current: 300 A, voltage: 60 V, breaking: {current: 300 A, "
        "voltage: 60 V}, withstand: {current: 20 kA, time: 20 ms}, resistance: {min: 0.1 mΩ, "
        "max: 0.2 mΩ}, terminal_limit: 90 °C, status: reviewed, reviewed: 2026-03-01, document: x, "
        "page: 1}\n"
    )
    answer = kit.ask(kit.write(linked), "pump fuse")
    assert not answer.cures
    for cure in answer.cures:
        assert "normally: closed" in cure.text
    assert answer.conflict is not None


def test_a_waived_fail_stays_waived_and_is_no_target(kit: Kit) -> None:
    waiver = (
        'waivers: [{rule: fundamentals/selectivity, subject: pump fuse, reason: "so be it", '
        "by: owner, date: 2026-01-01}]\n"
    )
    path = kit.write(_two() + waiver)
    assert not kit.ask(path, "pump fuse").targets
    whole = kit.ask(path)
    assert all(each.subject != "pump fuse" for each in whole.targets)


def test_a_waiver_that_covers_nothing_yet_lets_no_new_fail_pass(kit: Kit) -> None:
    """The main fuse is too small for its load, and 100 A over 80 A would no longer be selective.

    A waiver for the pump fuse waits: the change that makes use of it is no cure.
    """
    text = _two(fuse(125)).replace("{fuse: t-100, name: main fuse", "{fuse: t-200, name: main fuse")
    waiver = (
        'waivers: [{rule: fundamentals/selectivity, subject: pump fuse, reason: "in case", '
        "by: owner, date: 2026-01-01}]\n"
    )
    with_waiver = kit.ask(kit.write(text + waiver), "main run")
    without = kit.ask(kit.write(text), "main run")
    assert {each.rule for each in without.targets} >= {"fundamentals/cable-overload"}
    assert changes_of(with_waiver) == changes_of(without)
    for cure in with_waiver.cures:
        assert cure.after.counts["waived"] == 0


def test_a_part_without_its_interrupt_rating_is_no_cure(kit: Kit) -> None:
    """It would turn the fail into unproven."""
    silent = fuse(110, name="silent").replace(
        "interrupt_ratings: [{voltage: 125 V, current: 20 kA}], ", ""
    )
    path = kit.one("sb-100", "cable-35", 85, [fuse(100, "5 kA", 32, "sb-100"), silent, C35])
    answer = kit.ask(path, "main fuse")
    assert not answer.cures
    assert "silent" in {part.id for part, _ in answer.wanted[0].choice.silent}


def test_unproven_findings_are_named_and_not_asked_for(kit: Kit) -> None:
    path = kit.one("t-100", "cable-35", 85, [fuse(100), C35])
    text = path.read_text("utf-8").replace("terminal_limit: 90 °C, ", "")
    answer = kit.ask(kit.write(text), "main fuse")
    assert not answer.targets
    assert {each.rule for each in answer.unproven} == {"fundamentals/terminal-temperature"}


def test_every_margin_that_shrinks_is_told(kit: Kit) -> None:
    """A larger cable raises what a fault at the load reaches: nothing hides that."""
    path = kit.one("t-100", "cable-10", 122, [fuse(100), fuse(125), C10, C35])
    cure = kit.ask(path, "main fuse").cures[0]
    before = {(e.rule, e.subject): e for e in kit.ask(path).before.findings}
    for each in cure.after.findings:
        old = before.get((each.rule, each.subject))
        if old and old.margin and each.margin and each.margin < 0.99 * old.margin:
            assert (each.rule, each.subject) in {
                (pair.before.rule, pair.before.subject) for pair in cure.eroded if pair.before
            }
