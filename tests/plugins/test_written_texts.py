"""A figure that a part states is shown as its author wrote it, not converted."""

from __future__ import annotations

from coordination.testing.run import findings_of
from coordination.trace import Derived

SYSTEM = """system: fan
packs: [fundamentals]
places: {locker: {ambient: 104 °F}}
parts:
  cell: {kind: battery, emf: {min: 12 V, max: 13 V}, resistance: {min: 1 mΩ, max: 2 mΩ}}
  blade: {kind: fuse, rated_current: 20 A, derating: [[20 °C, 100 %], [104 °F, 0.85]]}
  wire: {kind: cable, area: 4 mm²}
sources: {battery: {part: cell}}
equipment: {fan: {current: 10 A}}
circuits:
  lead: {from: battery, to: fan, parts: [{fuse: blade, place: locker}, {cable: wire, length: 1 m}]}
"""


def test_a_derating_factor_is_shown_as_written():
    (found,) = findings_of(SYSTEM, only=("fundamentals/device-load",)).findings
    assert isinstance(found.required, Derived)
    (factor,) = [step for step in found.required.steps() if step.symbol == "k_listed"]
    assert (factor.value, factor.written) == (0.85, "0.85")
    assert factor.source.clause == "blade: derating.1.factor"
