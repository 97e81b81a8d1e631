"""What begins at a starter's terminal cranks nothing: no rule lets it go as a starter's conductor.

The starter's own cable stays exempt wherever a clause exempts it.
"""

from __future__ import annotations

import pytest

from coordination.testing.run import findings_of

PACKS = ("us_small_craft", "iso_small_craft", "us_premises")
#: A heater of 60 A hangs on the starter's terminal by a thin lead.
SYSTEM = """
system: starter with a branch
nominal_voltage: 12 V
options:
  us_small_craft: {{petrol_engine: yes}}
  iso_small_craft: {{hull_length: 6 m, starter_cables_supported: yes}}
  us_premises: {{use: vehicle, continuous_loads: yes}}
sources: {{battery: {{part: flooded-12}}}}
equipment:
  starter: {{current: 0 A, surge: {{current: 300 A, time: 5 s}}, cranking: yes}}
  heater: {{current: 60 A, critical: no}}
circuits:
  starter lead:
    from: battery
    to: starter
    parts: [{{cable: thick, name: starter cable, length: 1 m}}]
  heater lead:
    from: starter
    to: heater
    parts: [{parts}{{cable: thin, name: heater wire, length: 3 m, sheathed: no}}]
parts:
  flooded-12:
    kind: battery
    chemistry: lead-acid flooded
    capacity: 100 Ah
    nominal_voltage: 12 V
    emf: {{min: 12.0 V, max: 12.9 V}}
    charge_voltage: 14.4 V
    resistance: {{min: 4 mΩ, max: 8 mΩ}}
  fuse-100: {{kind: fuse, rated_current: 100 A, rated_voltage: 32 V}}
  switch-10: {{kind: disconnect, rated_current: 10 A, voltage: 60 V}}
  thick: {{kind: cable, awg: 2/0, insulation_temperature: 105 °C}}
  thin: {{kind: cable, awg: {size}, insulation_temperature: 105 °C}}
"""
FUSE = "{fuse: fuse-100, name: heater fuse, distance: 100 mm, sheathed: no}, "
SWITCH = "{disconnect: switch-10, name: heater switch}, "


def judged(rule: str, parts: str = "", size: str = "16"):
    return found_in(SYSTEM.format(parts=parts, size=size), rule)


def found_in(text: str, rule: str):
    return {each.subject: each for each in findings_of(text, packs=PACKS, only=(rule,)).findings}


@pytest.mark.parametrize(
    ("rule", "parts", "starter"),
    [
        ("fundamentals/cable-ampacity", "", "pass"),
        ("fundamentals/cable-overload", "", "note"),
        ("fundamentals/source-protection", "", "note"),
        ("fundamentals/return-conductor", "", "note"),
        ("us_small_craft/conductor-ampacity", "", "note"),
        ("us_small_craft/device-rating", "", "note"),
        ("us_small_craft/device-rating", FUSE, "note"),
        ("us_small_craft/practice-ampacity", "", "note"),
        ("us_small_craft/practice-device-rating", FUSE, "note"),
        ("iso_small_craft/conductor-ampacity", "", None),
        ("iso_small_craft/device-rating", FUSE, "note"),
        ("us_premises/conductor-protection", "", "note"),
        ("us_premises/conductor-protection", FUSE, "note"),
        ("us_premises/continuous-conductor", FUSE, None),
        ("us_premises/termination-temperature", FUSE, None),
        ("us_premises/vehicle-overcurrent", "", None),
    ],
)
def test_a_branch_off_the_starter_fails_and_the_starter_cable_is_exempt(rule, parts, starter):
    """60 A, and 100 A of fuse or none at all, on a conductor that bears a fraction of that.

    16 AWG at 105 °C: 25 A by 33 CFR 183.425 Table 5; 14 AWG at 90 °C: 25 A by NEC Table 310.16.
    """
    found = judged(rule, parts, "14" if rule.startswith("us_premises") else "16")
    assert found["heater wire"].verdict == "fail"
    cable = found.get("starter cable")
    assert (cable.verdict if cable else None) == starter


def test_a_branch_thinner_than_the_least_size_fails():
    found = judged("us_small_craft/conductor-size", size="20")
    assert found["heater wire"].verdict == "fail"
    assert found["starter cable"].verdict == "note"


def test_a_battery_feeds_a_branch_by_way_of_the_starter():
    """The lead begins 1 m from the battery, and no device is on it: the starter needs none."""
    battery = judged("iso_small_craft/device-placement")["battery"]
    assert battery.verdict == "fail"
    assert "no fuse or breaker on the way to heater" in battery.reason


@pytest.mark.parametrize(("distance", "verdict"), [("100 mm", "note"), ("900 mm", "fail")])
def test_the_fuse_of_a_branch_is_measured_from_the_starter(distance, verdict):
    """200 mm along the conductor from where it takes its power; the starter's cable is exempt."""
    fuse = FUSE.replace("100 mm", distance)
    battery = judged("iso_small_craft/device-placement", fuse)["battery"]
    assert battery.verdict == verdict


def test_a_switch_of_a_branch_is_judged():
    found = judged("iso_small_craft/battery-switch-rating", FUSE + SWITCH)
    assert found["heater switch"].verdict == "fail"


#: A house bank whose main cable has no fuse, and a fused charging link to the starter's terminal.
LINKED = """
system: linked banks
nominal_voltage: 12 V
options:
  us_small_craft: {petrol_engine: yes}
  iso_small_craft: {hull_length: 6 m}
  us_premises: {use: boat}
sources: {start: {part: flooded-12}, house: {part: flooded-12}}
busbars: {bar: {part: bar}}
equipment:
  starter: {current: 0 A, surge: {current: 300 A, time: 5 s}, cranking: yes}
  heater: {current: 60 A, critical: no}
circuits:
  starter lead:
    from: start
    to: starter
    parts: [{cable: thick, name: starter cable, length: 1 m}]
  house lead:
    from: house
    to: bar
    parts: [{cable: thin, name: house cable, length: 3 m}]
  link:
    from: bar
    to: starter
    parts: [{fuse: fuse-100, name: link fuse}, {cable: thin, name: link cable, length: 3 m}]
  heater lead:
    from: bar
    to: heater
    parts: [{fuse: fuse-100}, {cable: thin, length: 3 m}]
""" + SYSTEM[SYSTEM.index("parts:\n  flooded") :].format(size="10").replace(
    "parts:\n", "parts:\n  bar: {kind: busbar, rated_current: 300 A}\n"
)


@pytest.mark.parametrize(
    "rule",
    [
        "fundamentals/source-protection",
        "fundamentals/cable-overload",
        "us_small_craft/device-rating",
    ],
)
def test_a_fused_link_to_the_starter_makes_no_main_feed_of_the_house_cable(rule):
    found = found_in(LINKED, rule)
    assert found["house cable"].verdict == "fail"
    assert found["link cable"].verdict == "fail"
    assert found["starter cable"].verdict == "note"
