"""What the oracle found wrong, each as a case of its own."""

from __future__ import annotations

from typing import Any

import pytest

from tests.oracle.engine import check
from tests.oracle.generate import make, text_of

BESIDE = """\
system: two fuses
nominal_voltage: 24 V
places: {{shed: {{ambient: {ambient} °C}}}}
parts:
  cell: {{kind: battery, nominal_voltage: 25.6 V, emf: {{min: 25 V, max: 27 V}},
    resistance: {{min: 4 mΩ, max: 8 mΩ}}, charge_voltage: 28.8 V}}
  bar: {{kind: busbar, rated_current: 400 A, voltage: 60 V}}
  wire: {{kind: cable, area: 25 mm², insulation_temperature: 90 °C, voltage: 600 V}}
  big: {{kind: fuse, rated_current: 200 A, resistance: {{min: 0.1 mΩ, max: 0.2 mΩ}},
    derating: [[20 °C, 100 %], [40 °C, 95 %]],
    curve: {{min_melt: [[240 A, 900 s], [2 kA, 0.5 s], [6 kA, 5 ms]],
      max_clear: [[300 A, 900 s], [2.2 kA, 0.6 s], [7 kA, 6 ms]]}}}}
  small: {{kind: fuse, rated_current: 20 A, resistance: {{min: 1 mΩ, max: 2 mΩ}},
    derating: [[20 °C, 100 %], [40 °C, 95 %]],
    curve: {{min_melt: [[24 A, 900 s], [200 A, 50 ms], [600 A, 1 ms]],
      max_clear: [[30 A, 900 s], [220 A, 60 ms], [700 A, 2 ms]]}}}}
sources: {{bank: {{part: cell, place: shed}}}}
busbars: {{bus: {{part: bar, place: shed}}}}
equipment: {{lamp: {{current: 5 A, place: shed}}, pump: {{current: 9 A, place: shed}}}}
circuits:
  feed: {{from: bank, to: bus, place: shed, parts: [{{fuse: big}}, {{cable: wire, length: 1 m}}]}}
  light: {{from: bus, to: lamp, place: shed,
    parts: [{{fuse: small}}, {{cable: wire, length: 9 m}}]}}
  water: {{from: bus, to: pump, place: shed,
    parts: [{{fuse: small}}, {{cable: wire, length: 9 m}}]}}
"""


def _finding(text: str, rule: str, subject: str) -> dict[str, Any]:
    answer = check(text, (rule,))
    assert not [each for each in answer["problems"] if "crashed" in each]
    (found,) = (each for each in answer["findings"] if each["subject"] == subject)
    return found


@pytest.mark.parametrize("ambient", [15, 20])
def test_a_place_colder_than_the_first_derating_row_takes_that_row(ambient: int) -> None:
    # By hand: the small fuse has cleared before the large one melts at every current they share.
    assert _finding(BESIDE.format(ambient=ambient), "selectivity", "light/1")["verdict"] == "pass"


def test_a_stated_clearing_energy_that_does_not_bind_is_no_clearing_curve() -> None:
    # By hand: past 220 A its curve promises 220² × 60 / I², 0.4 s at 2.7 kA; 10⁶ A²s says nothing
    # there, for it is only known to hold up to 10 ms. So how it clears above 220 A is not known.
    slow = BESIDE.format(ambient=20).replace(
        "max_clear: [[30 A, 900 s], [220 A, 60 ms], [700 A, 2 ms]]}",
        "max_clear: [[30 A, 900 s], [220 A, 60 s]]}, clearing_i2t: 1e6 A²s,\n"
        "    interrupt_ratings: [{voltage: 60 V, current: 10 kA}]",
    )
    found = _finding(slow, "selectivity", "light/1")
    assert found["verdict"] == "unproven"
    assert any(each.startswith("small: maximum clearing curve") for each in found["missing"])


WEAK = """\
  far: {from: spare, to: bus, place: shed, parts: [{fuse: big}, {cable: wire, length: 95 m}]}
  tail: {from: bus, to: charger, place: shed, parts: [{cable: thin, length: 2 m}, {fuse: small}]}
"""
SOURCES = """shed}, spare: {part: cell, place: shed},
  charger: {current_limited: 10 A, voltage: 28 V, place: shed}}
busbars"""


def test_the_part_of_a_fault_that_no_device_ends_must_be_borne_too() -> None:
    # By hand: the far battery gives at most 27 V / (4 mΩ + 95 m × 1.38 mΩ/m) = 0.2 kA to a fault on
    # the thin cable, below 300 A where its fuse must open; 16 mm² does not carry that for good.
    text = BESIDE.format(ambient=20).replace("  light:", WEAK + "  light:")
    text = text.replace("shed}}\nbusbars", SOURCES)
    thin = "  thin: {kind: cable, area: 16 mm², insulation_temperature: 90 °C, voltage: 600 V}\n"
    found = _finding(text.replace("  big:", thin + "  big:"), "cable-withstand", "tail/1")
    assert found["verdict"] == "unproven"
    assert found["missing"][0].startswith("far/1: clearing time at")


RING = """\
  far: {from: spare, to: bus, place: shed, parts: [{fuse: slow}, {cable: wire, length: 1 m}]}
  ring: {from: bus, to: lamp, place: shed, parts: [{fuse: bare}, {cable: wire, length: 3 m}]}
"""
SLOW = """\
  slow: {kind: fuse, rated_current: 200 A, resistance: {min: 0.1 mΩ, max: 0.2 mΩ},
    curve: {max_clear: [[430 A, 1440 s], [2.2 kA, 0.08 s], [5 kA, 5 ms]]}}
  bare: {kind: fuse, rated_current: 20 A}
"""


def test_a_pair_that_breaks_at_currents_that_perhaps_never_flow_is_not_known_to() -> None:
    # By hand: beyond the slow fuse, towards its battery, hangs no consumer; the weakest fault there
    # draws some 2.5 kA from the other battery, where the slow one has cleared in time. But the
    # fuse whose resistance is not stated leaves open how much flows.
    text = BESIDE.format(ambient=20).replace("  light:", RING + "  light:")
    text = text.replace("shed}}\nbusbars", "shed}, spare: {part: cell, place: shed}}\nbusbars")
    found = _finding(text.replace("  big:", SLOW + "  big:"), "selectivity", "far/1")
    assert found["verdict"] == "unproven"
    assert "bare: resistance" in found["missing"]


def test_what_rounding_leaves_of_currents_that_cancel_is_no_current() -> None:
    # In this generated system no load hangs on either end of the ring's last cable.
    answer = check(text_of(make(560, small=True)), ("cable-ampacity",))
    (found,) = (each for each in answer["findings"] if each["subject"] == "ring 1/3")
    assert found["found"]["value"] == 0.0
    assert found["verdict"] == "pass"


def test_round_a_loop_a_device_may_carry_all_that_limited_sources_give() -> None:
    # In this generated system 200 A from one converter flow to a ring: 46 A of them through the
    # load's 20 A fuse, which takes 12 s and more, all of them through the converter's 30 A fuse.
    answer = check(text_of(make(1195, small=True)), ("selectivity",))
    (found,) = (f for f in answer["findings"] if f["subject"] == "radio load 4 feed/1")
    assert found["verdict"] == "fail"


def test_devices_on_both_of_two_ways_from_limited_sources_count() -> None:
    # In this generated system, its battery out, two chargers feed by a ring and by a breaker that
    # states no curve: what it does is not known.
    answer = check(text_of(make(3287, small=True)), ("selectivity",))
    (found,) = (f for f in answer["findings"] if f["subject"] == "house string 1/1")
    assert found["verdict"] == "unproven"
