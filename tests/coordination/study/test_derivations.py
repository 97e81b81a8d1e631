"""Every derivation can be followed: recomputing each formula from its inputs gives its value."""

from __future__ import annotations

import math
import re

import pytest

from coordination.network import connect
from coordination.study import Study, study
from coordination.trace import Derived, Value
from tests.coordination.study.random_systems import random_system

CASES = [
    (seed, {"buses": buses, "loops": loops, "batteries": batteries, "limited": limited})
    for seed in range(3)
    for buses, loops, batteries, limited in [
        (8, 0, 1, 0),
        (8, 0, 1, 2),
        (6, 0, 4, 1),
        (8, 2, 3, 1),
        (3, 0, 3, 2),
        (4, 0, 30, 0),
    ]
]


def recomputed(step: Derived) -> float:
    """The formula worked out with the inputs' values, by Python's own arithmetic."""
    text = step.formula
    for sign, python in (("×", "*"), ("−", "-"), ("²", "**2"), (" µH/m", "")):
        text = text.replace(sign, python)
    named = {}
    for position, item in enumerate(sorted(step.inputs, key=lambda i: -len(i.symbol))):
        stand_in = f"x{position}x"
        pattern = rf"(?<!\w){re.escape(item.symbol)}(?!\w)"
        assert re.search(pattern, text), f"{item.symbol!r} is not in {step.formula!r}"
        text = re.sub(pattern, stand_in, text)
        named[stand_in] = item.value
    return float(eval(text, {"__builtins__": {}, "max": max, "min": min}, named))


def answers(found: Study) -> list[Value]:
    elements = found.subjects("element")
    values = [ask(e) for ask in (found.duty, found.load, found.fault_min_through) for e in elements]
    values += [
        ask(p)
        for ask in (
            found.fault_max,
            found.fault_min,
            found.time_constant,
            found.load_voltage,
            found.voltage_max,
        )
        for p in found.network.points
    ]
    values += [
        ask(b)
        for ask in (found.section_load, found.incoming, found.outgoing)
        for b in found.subjects("busbar")
    ]
    values += [found.battery_current(s) for s in found.subjects("source")]
    values += [found.drop(e) for e in found.subjects("equipment")]
    return values


@pytest.mark.parametrize(("seed", "shape"), CASES)
def test_every_step_can_be_recomputed(seed: int, shape: dict[str, int]) -> None:
    found = study(connect(random_system(seed, **shape)))
    steps = {
        id(step): step
        for value in answers(found)
        if isinstance(value, Derived)
        for step in value.steps()
    }
    assert len(steps) > 50
    for step in steps.values():
        if step.formula:
            assert step.source is not None, step.quantity
            assert math.isclose(recomputed(step), step.value, rel_tol=1e-6, abs_tol=1e-6), step
        else:
            assert not step.inputs, step.quantity
            assert step.source is not None, step.quantity


def test_one_source_is_shown_as_a_sum_along_the_way() -> None:
    found = study(connect(random_system(0, buses=8, loops=0, batteries=1, limited=0)))
    fault = found.fault_max("bus 7")
    assert isinstance(fault, Derived)
    assert fault.formula == "E / R"
    emf, ohms = fault.inputs
    assert "pack 0" in emf.quantity
    assert ohms.formula == " + ".join(f"R_{n}" for n in range(1, len(ohms.inputs) + 1))
    assert "pack 0" in ohms.inputs[0].quantity
