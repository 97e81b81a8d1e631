"""Small systems drawn by hand, with what each event leaves written down by hand."""

from __future__ import annotations

import pytest

from coordination.study.outages import Outcome
from coordination.trace import Derived, Unknown
from tests.coordination.study.by_hand import studied
from tests.coordination.study.hand_made import (
    Builder,
    battery,
    breaker,
    cable,
    channel,
    fuse,
    joint,
    run,
    switch,
)

WIRE = cable("wire", 1e-3)
LITHIUM = battery("lithium", 13.0, 0.002, chemistry="lfp")
LEAD = battery("lead", 12.5, 0.004, chemistry="lead-acid agm")


def wire() -> dict[str, object]:
    return run(WIRE, 1.0)


def named(part: object, name: str, **more: object) -> dict[str, object]:
    return {"part": part, "name": name, **more}


def boat() -> Builder:
    """Pack and contactor, an always-on bus, a house switch; alternator on the start battery."""
    made = Builder()
    made.battery("pack", LITHIUM).battery("start", LEAD).limited("alternator", 80.0, 14.4)
    made.bus("always on", "house", "engine").load("bilge", 5.0, critical=True)
    made.load("radio", 2.0).load("lamp", 3.0)
    made.converter(
        "dc-dc", output_current=30.0, output_voltage=14.4, efficiency=0.9, min_input_voltage=12.0
    )
    made.circuit(
        "feed", "pack", "always on",
        named(fuse(), "main"), named(switch(), "contactor", operated_by="pack"), wire(),
    )  # fmt: skip
    made.circuit("to house", "always on", "house", named(switch(), "house switch"))
    made.circuit("b", "always on", "bilge", named(fuse(), "bilge fuse"), wire())
    made.circuit("r", "house", "radio", named(breaker(), "radio breaker"), wire())
    made.circuit("l", "house", "lamp", wire(), named(channel(), "lamp output"))
    made.circuit("s", "start", "engine", wire())
    made.circuit("a", "alternator", "engine", named(fuse(), "alternator fuse"))
    made.circuit("d", "engine", "dc-dc.input", named(fuse(), "dc-dc fuse"))
    made.circuit("o", "dc-dc.output", "house", wire())
    made.circuit(
        "link", "engine", "house", named(switch(), "link switch", normally_open=True), joint(1e-4)
    )
    return made.condition("linked", close=("link switch",))


def outcome(builder: Builder, told: str, condition: str = "normal") -> Outcome:
    return {each.event.told: each for each in studied(builder, condition).outages}[told]


#: Event to dark equipment, equipment on limited sources alone, sources without a battery.
BY_HAND = {
    "main opens": ((), ("bilge", "radio", "lamp"), ("dc-dc",)),
    "bilge fuse opens": (("bilge",), (), ()),
    "radio breaker opens": (("radio",), (), ()),
    "alternator fuse opens": ((), (), ("alternator",)),
    "dc-dc fuse opens": ((), (), ()),
    "lamp output is off": (("lamp",), (), ()),
    # behind it the DC-DC feeds on, from the start battery
    "house switch is opened": ((), ("radio", "lamp"), ("dc-dc",)),
    "pack trips": ((), ("bilge", "radio", "lamp"), ("dc-dc",)),
    "pack is lost": ((), ("bilge", "radio", "lamp"), ("dc-dc",)),
    # the DC-DC runs on from the alternator, but the house has the pack
    "start is lost": ((), (), ("alternator",)),
    "alternator is lost": ((), (), ()),
    "dc-dc stops": ((), (), ()),
    "all switches off": ((), ("radio", "lamp"), ("dc-dc",)),
}


def test_every_event_of_the_boat() -> None:
    found = {
        each.event.told: (
            each.dark,
            tuple(name for name, _ in each.supplied),
            tuple(left.source for left in each.left),
        )
        for each in studied(boat()).outages
    }
    assert found == BY_HAND


def test_linked_the_start_battery_carries_the_house() -> None:
    for told in ("main opens", "pack trips", "link switch is opened", "house switch is opened"):
        assert outcome(boat(), told, "linked").dark == ()
    # the switch parts the always-on bus with the pack from the house with the start battery
    assert outcome(boat(), "house switch is opened", "linked").parted == (
        ("pack",), ("start", "alternator", "dc-dc"),
    )  # fmt: skip
    off = outcome(boat(), "all switches off", "linked")
    assert (off.dark, off.live) == ((), ("bilge", "radio", "lamp"))
    assert [name for name, _ in off.supplied] == ["radio", "lamp"]


def test_a_converter_ends_with_its_input_and_takes_what_hangs_on_it() -> None:
    made = Builder().battery("pack", LITHIUM).bus("bus").load("beacon", 1.0).load("tablet", 1.0)
    fields = {"output_voltage": 5.0, "efficiency": 0.8, "min_input_voltage": 10.0}
    made.converter("first", output_current=10.0, **fields)
    made.converter("second", output_current=2.0, **fields)
    made.circuit("feed", "pack", "bus", named(fuse(), "main"))
    made.circuit("one", "bus", "first.input", named(fuse(), "first fuse"))
    made.circuit("two", "first.output", "second.input", named(fuse(), "second fuse"))
    made.circuit("three", "second.output", "tablet", wire())
    made.circuit("four", "first.output", "beacon", wire())
    assert outcome(made, "main opens")[1:3] == (("beacon", "tablet"), ("first", "second"))
    assert outcome(made, "first stops")[1:3] == (("beacon", "tablet"), ("second",))
    assert outcome(made, "second fuse opens")[1:3] == (("tablet",), ("second",))


def test_converters_in_a_ring_keep_nothing_alive() -> None:
    made = Builder().battery("pack", LITHIUM).load("radio", 1.0)
    fields = {"output_voltage": 14.0, "efficiency": 0.9, "min_input_voltage": 10.0}
    made.converter("there", output_current=10.0, **fields)
    made.converter("back", output_current=10.0, **fields)
    made.bus("one", "other")
    made.circuit("feed", "pack", "one", named(fuse(), "main"))
    made.circuit("a", "one", "there.input", wire())
    made.circuit("b", "there.output", "other", wire())
    made.circuit("c", "other", "back.input", wire())
    made.circuit("d", "back.output", "one", wire())
    made.circuit("e", "other", "radio", wire())
    assert outcome(made, "main opens").dark == ("radio",)


def bus_without_battery(lamp: float | None = 15.0, limit: float = 20.0) -> Builder:
    """5 A and 15 A on a bus with a lithium pack and a charger of 20 A."""
    made = Builder().battery("pack", LITHIUM).limited("charger", limit, 14.4).bus("bus")
    made.load("bilge", 5.0).load("lamp", lamp)
    made.circuit("p", "pack", "bus", wire())
    made.circuit("c", "charger", "bus", wire())
    made.circuit("b", "bus", "bilge", wire())
    return made.circuit("l", "bus", "lamp", wire())


@pytest.mark.parametrize(("lamp", "state"), [(15.0, "carried"), (15.1, "starved")])
def test_limited_sources_carry_as_much_as_they_give(lamp: float, state: str) -> None:
    study = studied(bus_without_battery(lamp))
    tripped = {each.event.told: each for each in study.outages}["pack trips"]
    assert {name: each.state for name, each in tripped.supplied} == {"bilge": state, "lamp": state}
    supplied = tripped.supplied[0][1]
    demand, limit = study.limited_demand(supplied), study.limited_supply(supplied)
    assert isinstance(demand, Derived)
    assert isinstance(limit, Derived)
    assert (demand.value, limit.value) == (5.0 + lamp, 20.0)
    assert [each.value for each in demand.inputs] == [5.0, lamp]


def test_a_draw_that_is_not_known_leaves_it_open() -> None:
    made = bus_without_battery(None)
    made.load("lamp", None, power=100.0, efficiency=0.9)
    study = studied(made)
    tripped = {each.event.told: each for each in study.outages}["pack trips"]
    assert tripped.doubtful == ("bilge", "lamp")
    demand = study.limited_demand(tripped.supplied[0][1])
    assert isinstance(demand, Unknown)
    assert demand.missing == ("lamp: min_voltage",)


def test_a_starved_converter_gives_nothing_to_count_on() -> None:
    made = bus_without_battery(15.0, 19.0)
    made.converter(
        "usb", output_current=4.0, output_voltage=5.0, efficiency=1.0, min_input_voltage=20.0
    )
    made.load("tablet", 2.0)
    made.circuit("i", "bus", "usb.input", wire())
    made.circuit("o", "usb.output", "tablet", wire())
    # 5 A + 15 A + 4 A × 5 V / 20 V = 21 A of 19 A: the bus collapses, and the converter with it
    assert outcome(made, "pack trips").starved == ("bilge", "lamp", "tablet")


def by_converter(**draw: float) -> Builder:
    """A lamp of 4 A on a bus with a pack and a DC-DC of 10 A from a lead-acid battery."""
    made = Builder().battery("pack", LITHIUM).battery("start", LEAD).bus("bus").load("lamp", 4.0)
    made.converter(
        "dc-dc", output_current=10.0, output_voltage=14.0, efficiency=1.0, min_input_voltage=10.0
    )
    made.circuit("p", "pack", "bus", wire())
    made.circuit("i", "start", "dc-dc.input", wire())
    made.circuit("o", "dc-dc.output", "bus", wire())
    return made.circuit("l", "bus", "lamp", wire()).condition("so", draw={"dc-dc": draw["share"]})


def test_a_converter_that_is_off_feeds_nothing() -> None:
    off = outcome(by_converter(share=0.0), "pack trips", "so")
    assert (off.dark, off.left) == (("lamp",), ())
    study = studied(by_converter(share=0.0), "so")
    assert "dc-dc stops" not in [each.event.told for each in study.outages]


@pytest.mark.parametrize(("share", "state"), [(0.4, "carried"), (0.39, "starved")])
def test_a_converter_gives_the_share_it_draws(share: float, state: str) -> None:
    """0.4 × 10 A = 4 A."""
    study = studied(by_converter(share=share), "so")
    tripped = {each.event.told: each for each in study.outages}["pack trips"]
    ((name, supplied),) = tripped.supplied
    assert (name, supplied.state) == ("lamp", state)
    limit = study.limited_supply(supplied)
    assert isinstance(limit, Derived)
    assert limit.value == pytest.approx(share * 10.0)


def joined_packs(chemistry: str | None = "lfp") -> Builder:
    """Two packs on one bus, each with its fuse."""
    part = battery("pack", 13.0, 0.002, chemistry=chemistry)
    made = Builder().battery("port", part).battery("starboard", part).bus("bus").load("lamp", 3.0)
    made.circuit("p", "port", "bus", named(fuse(), "port fuse"))
    made.circuit("s", "starboard", "bus", named(fuse(), "starboard fuse"))
    return made.circuit("l", "bus", "lamp", wire())


def test_joined_packs_trip_together() -> None:
    assert outcome(joined_packs(), "port trips").dark == ()
    assert outcome(joined_packs(), "port fuse opens").isolated == ("port",)
    assert outcome(joined_packs(), "port + starboard trip together").dark == ("lamp",)


@pytest.mark.parametrize("chemistry", ["lead-acid flooded", "nicd", None])
def test_batteries_without_electronics_do_not(chemistry: str | None) -> None:
    kinds = {each.event.kind for each in studied(joined_packs(chemistry)).outages}
    assert kinds == {"device", "source"}


def test_packs_that_a_fuse_parts_reach_their_limits_apart() -> None:
    made = joined_packs().condition("apart", open=("port fuse",))
    assert not [each for each in studied(made, "apart").outages if each.event.kind == "joint trip"]
    assert outcome(made, "starboard trips", "apart").dark == ("lamp",)


def test_contactors_of_one_battery_open_one_by_one_and_together() -> None:
    made = Builder().battery("pack", LITHIUM).limited("solar", 10.0, 14.4).bus("charge", "loads")
    made.load("lamp", 3.0)
    made.circuit(
        "c", "pack", "charge", named(switch(), "charge contactor", operated_by="pack")
    ).circuit("d", "pack", "loads", named(switch(), "load contactor", operated_by="pack"))
    made.circuit("s", "solar", "charge", wire()).circuit("l", "loads", "lamp", wire())
    assert [left.source for left in outcome(made, "charge contactor opens").left] == ["solar"]
    assert outcome(made, "charge contactor opens").dark == ()
    assert outcome(made, "load contactor opens").dark == ("lamp",)
    both = outcome(made, "pack trips")
    assert (both.dark, [left.source for left in both.left]) == (("lamp",), ["solar"])


def test_what_lies_in_a_loop_takes_nothing_with_it() -> None:
    made = Builder().battery("pack", LEAD).bus("one", "other").load("lamp", 3.0)
    made.circuit("p", "pack", "one", wire())
    made.circuit("a", "one", "other", named(fuse(), "fuse a"))
    made.circuit("b", "one", "other", named(fuse(), "fuse b"))
    made.circuit("l", "other", "lamp", named(fuse(), "lamp fuse"))
    assert outcome(made, "fuse a opens").harmless
    assert outcome(made.condition("one way", open=("fuse b",)), "fuse a opens", "one way").dark == (
        "lamp",
    )


def test_dark_as_drawn_is_nothing_that_an_event_does() -> None:
    made = boat().condition("laid up", open=("house switch",), without=("dc-dc",))
    study = studied(made, "laid up")
    assert study.before_any_event.dark == ("radio", "lamp")
    assert all("radio" not in each.dark for each in study.outages)


def test_own_branch_ends_where_anything_else_is_joined() -> None:
    study = studied(boat())
    branches = {
        name: [each.name for each in study.own_branch(equipment)]
        for name, equipment in study.system.equipment.items()
    }
    assert branches == {
        "bilge": ["b/2", "bilge fuse"],
        "radio": ["r/2", "radio breaker"],
        "lamp": ["lamp output", "l/1"],
    }


def test_what_stays_live_with_every_switch_off() -> None:
    live = studied(boat()).always_live
    assert {"pack", "always on", "bilge", "start", "engine", "dc-dc.input"} <= live.kept
    assert {"house", "radio", "lamp", "dc-dc.output"} <= live.fed
