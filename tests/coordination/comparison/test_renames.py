"""Names that changed: guessed where only one thing can be meant, and then not told as changes."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

CABLE = "{cable: wire, length: 0.5 m}"
MAIN = "{fuse: main-400, name: main fuse}"


def test_a_renamed_fuse_keeps_its_verdicts(differs: Callable[..., Any]) -> None:
    comparison = differs(("name: main fuse", "name: bank fuse"))
    assert comparison.renames == {"main fuse": "bank fuse"}
    assert comparison.moves == ()
    assert comparison.things == ()
    assert comparison.currents == ()
    assert comparison.exit_status == 0


def test_a_renamed_battery_and_bar_take_their_points_along(differs: Callable[..., Any]) -> None:
    comparison = differs(
        ("battery 2: {part", "second: {part"), ("from: battery 2", "from: second"),
        ("lead 2: {from", "lead two: {from"),
    )  # fmt: skip
    # Two batteries of one part: one went and one came, and the other has its name.
    assert comparison.renames == {"battery 2": "second", "lead 2": "lead two"}
    assert comparison.moves == ()
    assert comparison.things == ()
    assert comparison.currents == ()


def test_two_that_could_be_meant_are_not_guessed(differs: Callable[..., Any]) -> None:
    comparison = differs(
        ("  battery 1: {part: pack}", "  port: {part: pack}"), ("from: battery 1", "from: port"),
        ("  battery 2: {part: pack}", "  starboard: {part: pack}"),
        ("from: battery 2", "from: starboard"),
    )  # fmt: skip
    names = {each.name for each in comparison.things if each.how == "added"}
    assert names == {"port", "starboard"}
    assert not set(comparison.renames) & {"battery 1", "battery 2"}


def test_an_element_put_before_others_moves_them_along(differs: Callable[..., Any]) -> None:
    """The cable was feed/2; a joint before it makes it feed/3, and nothing else of it is new."""
    comparison = differs((CABLE, "{joint: 0.1 mΩ}, " + CABLE))
    assert comparison.renames == {"feed/2": "feed/3"}
    added = [(each.kind, each.name) for each in comparison.things]
    assert added == [("joint", "feed/2")]
    (moved,) = (each for each in comparison.currents
                if (each.where, each.quantity) == ("feed/3", "duty_A"))  # fmt: skip
    # 13.6 V / (1.17751 + 0.1) mΩ = 10.65 kA, where 11.55 kA were.
    assert round(moved.before) == 11550
    assert round(moved.after, -1) == 10650


def test_what_was_taken_out_is_not_taken_for_what_moved_up(differs: Callable[..., Any]) -> None:
    joint = (CABLE, "{joint: 0.1 mΩ}, " + CABLE)
    comparison = differs(old=(joint,))
    assert comparison.renames == {"feed/3": "feed/2"}
    assert [(each.how, each.kind, each.name) for each in comparison.things] == [
        ("removed", "joint", "feed/2")
    ]
    assert not [each for each in comparison.moves if each.subject == "feed/2" and
                each.how in ("vanished", "appeared")]  # fmt: skip


def test_fields_are_told_as_they_were_written(differs: Callable[..., Any]) -> None:
    comparison = differs(
        ("length: 0.5 m", "length: 120 cm"), ("{current: 300 A", "{current: 310 A")
    )
    told = {(each.name, *fields) for each in comparison.things for fields in each.fields}
    assert told == {
        ("feed/2", "length", "0.5 m", "120 cm"), ("inverter", "current", "300 A", "310 A"),
    }  # fmt: skip


def test_another_unit_is_no_change(differs: Callable[..., Any]) -> None:
    comparison = differs(("length: 0.5 m", "length: 500 mm"))
    assert comparison.things == ()
    assert comparison.moves == ()


def test_a_part_that_states_something_else_is_told_by_field(differs: Callable[..., Any]) -> None:
    comparison = differs(("current: 14 kA", "current: 11 kA"))
    (part,) = comparison.parts
    assert (part.how, part.name) == ("changed", "main-400")
    assert any("14 kA" in was and "11 kA" in now for _, was, now in part.fields)
    assert comparison.things == ()
    # 11 kA / 11.55 kA = 0.952
    assert [each.subject for each in comparison.of("new fail")] == ["main fuse"]
