"""Faults, duties, load currents and rises of generated systems, set beside ngspice's.

The nightly command does the same with thousands of systems: `python -m tests.oracle.nightly`.
"""

from __future__ import annotations

from collections.abc import Callable
from copy import deepcopy
from typing import Any

import pytest

from tests.oracle.compare import TOLERANCE, Tally, compare
from tests.oracle.engine import NUMBERS_ONLY, check
from tests.oracle.generate import make, text_of
from tests.oracle.plant import Plant, read
from tests.oracle.rise import Rises
from tests.oracle.rise import compare as compare_rises
from tests.oracle.spice import there

SYSTEMS, RISES, BATCH = 100, 25, 10

pytestmark = pytest.mark.skipif(not there(), reason="skipped: ngspice missing")


def _solved(seed: int) -> tuple[Plant, dict[str, Any]]:
    text = text_of(make(seed))
    return read(text), check(text, NUMBERS_ONLY)


@pytest.mark.parametrize("first", range(0, SYSTEMS, BATCH))
def test_every_current_is_ngspices(first: int) -> None:
    tally = Tally()
    for seed in range(first, first + BATCH):
        tally.merge(compare(*_solved(seed), seed))
    assert not tally.off, "\n".join(tally.off[:20])
    assert max(tally.worst.values()) <= TOLERANCE
    kinds = {"fault_max_A", "fault_min_A", "duty_A", "load_A", "load_voltage_V"}
    assert {kind for kind, number in tally.compared.items() if number > 100} == kinds


@pytest.mark.parametrize("first", range(0, RISES, 5))
def test_every_rise_is_ngspices_within_two_per_cent(first: int) -> None:
    rises = Rises()
    for seed in range(first, first + 5):
        plant, answer = _solved(seed)
        rises.merge(compare_rises(plant, answer["conditions"]["normal"]["points"], seed))
    assert not rises.off(), "\n".join(rises.off())
    assert len(rises.moments) >= 5


@pytest.mark.parametrize(
    ("section", "field"),
    [("points", "fault_max_A"), ("points", "fault_min_A"), ("elements", "duty_A"),
     ("elements", "load_A")],
)  # fmt: skip
def test_a_number_two_per_mille_off_is_noticed(section: str, field: str) -> None:
    plant, answer = _complete(lambda p, a: compare(p, a, 0).off)
    numbers = answer["conditions"]["normal"][section]
    name = max(numbers, key=lambda each: numbers[each][field] or 0.0)
    numbers[name][field] *= 1.002
    assert any(name in line and field in line for line in compare(plant, answer, 0).off)


def _complete(off: Callable[[Plant, dict[str, Any]], list[str]]) -> tuple[Plant, dict[str, Any]]:
    """The first system that states everything, with an answer that agrees."""
    for seed in range(20):
        plant, answer = _solved(seed)
        if all(element.high is not None for element in plant.elements):
            assert not off(plant, answer)
            return plant, deepcopy(answer)
    raise AssertionError("no generated system states everything")
