"""What stands behind an element: counted by hand on a drawing with a ring in it."""

from __future__ import annotations

from typing import Any

import pytest
from fusewright_fundamentals.behind import Behind, behind

from coordination.testing.run import findings_of

#: pack -- near bar == far bar (two ties: a ring) -- lamp, fan; solar, converter on the far bar;
#: a starter and the start battery beyond the open link.
RING = """
system: ring
nominal_voltage: 24 V
sources:
  pack: {part: pack}
  start battery: {part: pack}
  solar: {current_limited: 30 A, voltage: 27 V}
busbars: {near bar: {part: bar}, far bar: {part: bar}}
equipment:
  lamp: {current: 1 A}
  fan: {current: 2 A}
  starter: {current: 0 A, cranking: yes}
converters: {dc-dc: {output_current: 40 A, output_voltage: 27 V, efficiency: 90 %}}
circuits:
  feed: {from: pack, to: near bar, parts: [{joint: 1 mΩ, name: feed joint}]}
  tie 1: {from: near bar, to: far bar, parts: [{joint: 1 mΩ, name: one}]}
  tie 2: {from: far bar, to: near bar, parts: [{joint: 1 mΩ, name: two}]}
  lamp lead: {from: far bar, to: lamp, parts: [{joint: 1 mΩ, name: a}, {joint: 1 mΩ, name: b}]}
  fan lead: {from: lamp lead@1, to: fan, parts: [{joint: 1 mΩ, name: fan joint}]}
  solar lead: {from: solar, to: far bar, parts: [{joint: 1 mΩ, name: solar joint}]}
  out: {from: dc-dc.output, to: far bar, parts: [{joint: 1 mΩ, name: out joint}]}
  in: {from: start battery, to: dc-dc.input, parts: [{joint: 1 mΩ, name: in joint}]}
  starter lead: {from: start battery, to: starter, parts: [{joint: 1 mΩ, name: start joint}]}
  link:
    from: start battery
    to: near bar
    parts: [{disconnect: switch, normally: open, name: link switch}, {joint: 1 mΩ, name: joint}]
conditions: {parallel: {close: [link switch]}, night: {without: [solar]}}
parts:
  pack: {kind: battery, emf: {min: 24 V, max: 26 V}, resistance: {min: 4 mΩ, max: 8 mΩ}}
  bar: {kind: busbar, rated_current: 500 A}
  switch: {kind: disconnect, rated_current: 300 A, resistance: {min: 0 mΩ, max: 0 mΩ}}
"""

HOUSE = Behind(batteries=1, consumers=2, limited=70.0)


@pytest.fixture(scope="module")
def studies() -> Any:
    return findings_of(RING, packs=("fundamentals",)).studies


@pytest.mark.parametrize(
    ("condition", "name", "end", "expected"),
    [
        ("normal", "feed joint", "start", Behind(batteries=1)),
        ("normal", "feed joint", "end", Behind(consumers=2, limited=70.0)),
        ("normal", "a", "end", Behind(consumers=2)),
        ("normal", "a", "start", Behind(batteries=1, limited=70.0)),
        ("normal", "b", "end", Behind(consumers=1)),
        ("normal", "solar joint", "start", Behind(limited=30.0)),
        ("normal", "out joint", "start", Behind(limited=40.0)),
        ("normal", "in joint", "end", Behind(consumers=1)),
        ("normal", "start joint", "end", Behind(starters=1)),
        # Inside the ring everything connected stands behind, on either side.
        ("normal", "one", "end", HOUSE),
        ("normal", "two", "start", HOUSE),
        ("night", "feed joint", "end", Behind(consumers=2, limited=40.0)),
        ("parallel", "joint", "start", Behind(batteries=1, consumers=1, starters=1)),
        ("parallel", "joint", "end", HOUSE),
    ],
)
def test_counts(studies: Any, condition: str, name: str, end: str, expected: Behind) -> None:
    study = studies[condition]
    element = next(each for each in study.system.elements() if each.name == name)
    assert behind(element, end, study) == expected
