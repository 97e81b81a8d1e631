"""The worst current for a cable, looked for at few currents, against a fine scan of all of them."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace

import pytest
from fusewright_fundamentals.cable_withstand import cable_withstand
from fusewright_fundamentals.heating import heating_of
from fusewright_fundamentals.worst_course import worst_course

from coordination.checking import Request, prepare, studies_of
from coordination.trace import Derived, Unknown

SYSTEMS = Path(__file__).parents[2] / "fixtures/systems"
POINTS = 300


def heatings(name):
    request = Request(str(SYSTEMS / name))
    system, packs = prepare(request)
    for study in studies_of(request, system, packs).values():
        for cable in study.subjects("cable"):
            for span in study.fault_range(cable):
                if not (span.exposed or span.missing):
                    for leg in study.legs(cable)[:1]:
                        yield heating_of(cable, study, span, leg)


@pytest.mark.parametrize("name", ["tender-planted.yaml", "bench-60.yaml"])
def test_no_current_of_a_fine_scan_is_worse_than_the_worst(name):
    seen = 0
    for heating in heatings(name):
        if isinstance(heating, Unknown) or isinstance(heating.ampacity, Unknown):
            continue
        high = heating.span.highest.value
        low = heating.span.least or high / 1000
        scan = [low * (high / low) ** (n / POINTS) for n in range(POINTS + 1)]
        worst = worst_course(heating)
        # Between steps of 2 % a temperature changes by less than a share of 1 %.
        assert worst.severity >= max(heating.course(i).severity for i in scan) * 0.99
        assert worst.severity == heating.course(worst.current).severity
        seen += 1
    assert seen > 10


def test_a_cable_in_which_no_fault_current_can_flow_is_not_judged():
    nothing = Derived("fault current", "I", 0.0, "A")
    span = SimpleNamespace(exposed=(), missing=(), highest=nothing)
    study = SimpleNamespace(fault_range=lambda _: [span], legs=lambda _: [None])
    assert list(cable_withstand.judge(SimpleNamespace(name="c"), study)) == []


def test_a_cable_that_its_load_would_melt_is_too_hot_and_crashes_no_rule():
    degrees = Derived("temperature", "T", 5000.0, "°C")
    for heating in heatings("tender-planted.yaml"):
        if isinstance(heating, Unknown) or not heating.span.corners():
            continue
        melted = type(heating)(
            heating.cable, heating.study, heating.span, heating.leg, degrees, heating.final,
            Derived("limit", "J", 0.0, "A²s"), heating.ampacity,
        )  # fmt: skip
        assert worst_course(melted).severity > 1.0
        return
    raise AssertionError("no cable with a curve ahead of it")
