"""What cranks an engine: the widest way from a battery to its starter, and nothing beside it."""

from __future__ import annotations

import pytest

from catalogue.store import open_catalogue
from coordination.network import connect
from coordination.reading import read_bytes
from coordination.rules.kit.starters import cranks, main_feed
from coordination.study import study

PARTS = """
system: engines
nominal_voltage: 12 V
parts:
  cell: {kind: battery, emf: {min: 12 V, max: 13 V}, resistance: {min: 4 mΩ, max: 8 mΩ}}
  wire: {kind: cable, area: 50 mm²}
  fuse-100: {kind: fuse, rated_current: 100 A}
  fuse-300: {kind: fuse, rated_current: 300 A}
  fuse-bare: {kind: fuse}
  switch: {kind: disconnect}
  bar: {kind: busbar}
sources: {one: {part: cell}, two: {part: cell}, alternator: {current_limited: 80 A, voltage: 14 V}}
busbars: {bus: {part: bar}}
equipment:
  starter: {current: 0 A, cranking: yes}
  starter 2: {current: 0 A, cranking: yes}
  winch: {current: 50 A}
converters: {charger: {output_current: 30 A, output_voltage: 28 V}}
circuits:
  elsewhere: {from: charger.output, to: alternator, parts: [{cable: wire, length: 1 m}]}
  none: {from: two, to: winch, parts: [{cable: wire, length: 1 m}]}
  none 2: {from: two, to: starter 2, parts: [{cable: wire, length: 1 m}]}
"""


def studied(circuits: str):
    """A study of the circuits, one a line: name, from, to, and parts."""
    text = PARTS
    for line in circuits.strip().splitlines():
        name, start, end, *parts = (each.strip() for each in line.split(","))
        kinds = {"wire": "{cable: wire, length: 1 m}", "switch": "{disconnect: switch}"}
        listed = ", ".join(kinds.get(part, f"{{fuse: {part}}}") for part in parts)
        text += f"  {name}: {{from: {start}, to: {end}, parts: [{listed}]}}\n"
    if "bus" not in circuits:
        text = text.replace("busbars: {bus: {part: bar}}\n", "")
    with open_catalogue(None) as catalogue:
        system = read_bytes(text.encode(), "engines.yaml", catalogue)
    return study(connect(system, "normal"))


def cranking(circuits: str, **how: bool) -> set[str]:
    found = studied(circuits)
    return {
        name
        for name, circuit in found.system.circuits.items()
        if name not in ("none 2", "none") and cranks(circuit, found, **how)
    }


@pytest.mark.parametrize(
    ("circuits", "bare", "through"),
    [
        # A battery's own cable; a switch is no device.
        ("lead, one, starter, switch, wire", {"lead"}, {"lead"}),
        # By way of a bus.
        ("main, one, bus, wire\nlead, bus, starter, wire", {"lead"}, {"lead"}),
        # Behind a device of another circuit only where that is asked for.
        ("main, one, bus, fuse-300, wire\nlead, bus, starter, wire", set(), {"lead"}),
        # The starter's only feed may have a device of its own.
        ("lead, one, starter, fuse-300, wire", {"lead"}, {"lead"}),
        # A fused link beside the starter's own cable does not crank, bare or fused as that is.
        (
            "lead, one, starter, wire\nlink, two, starter, fuse-100, wire",
            {"lead"},
            {"lead"},
        ),
        (
            "lead, one, starter, fuse-300, wire\nlink, two, starter, fuse-100, wire",
            {"lead"},
            {"lead"},
        ),
        # A device of which no rating is known is taken for the narrowest.
        (
            "lead, one, starter, fuse-300, wire\nlink, two, starter, fuse-bare, wire",
            {"lead"},
            {"lead"},
        ),
        # What begins at the starter and leads to no battery.
        (
            "lead, one, starter, wire\nfeed, starter, bus, wire\nlamp, bus, winch, fuse-100",
            {"lead"},
            {"lead"},
        ),
        ("lead, one, starter, wire\ncharge, starter, charger.input, wire", {"lead"}, {"lead"}),
        # A winch's terminal is no way to a battery: this may be a thin wire in a ring.
        ("lead, one, starter, wire\nring, winch, starter, wire", {"lead"}, {"lead"}),
        # A crossover between two engines' starters cranks either.
        (
            "lead, one, starter, wire\ncross, starter, starter 2, wire",
            {"lead", "cross"},
            {"lead", "cross"},
        ),
    ],
)
def test_which_circuits_crank(circuits, bare, through):
    assert cranking(circuits) == bare
    assert cranking(circuits, through_devices=True) == through


@pytest.mark.parametrize(
    ("circuits", "feeds"),
    [
        ("main, one, bus, wire\nlead, bus, starter, wire", {"main"}),
        ("main, one, bus, wire\nlead, bus, starter, wire\nw, bus, winch, fuse-100", {"main"}),
        # Something bare beside the starter's circuit ends the exemption.
        ("main, one, bus, wire\nlead, bus, starter, wire\nw, bus, winch, wire", set()),
        # A house bank's cable is none because of a fused link to a starter with its own cable.
        (
            "lead, one, starter, wire\nmain, two, bus, wire\nlink, bus, starter, fuse-100",
            set(),
        ),
        # Nor is a battery's fused lead to the bus that another one feeds bare.
        (
            "main, one, bus, wire\nlead, bus, starter, wire\nhouse, two, bus, fuse-100, wire",
            {"main"},
        ),
    ],
)
def test_which_circuits_are_a_starter_s_main_feed(circuits, feeds):
    found = studied(circuits)
    circuits_ = found.system.circuits.items()
    assert {name for name, circuit in circuits_ if main_feed(circuit, found)} == feeds
