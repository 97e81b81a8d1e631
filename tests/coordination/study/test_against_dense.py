"""The sparse solution against numpy's dense one on random networks."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from coordination.network import Network, connect
from coordination.study import Study, study
from tests.coordination.study.dense import Dense, number
from tests.coordination.study.random_systems import random_system

SHAPES = {
    "radial": {"buses": 12, "loops": 0, "batteries": 1, "limited": 0},
    "radial with charger": {"buses": 12, "loops": 0, "batteries": 1, "limited": 2},
    "parallel strings": {"buses": 6, "loops": 0, "batteries": 4, "limited": 1},
    "one ring": {"buses": 8, "loops": 1, "batteries": 1, "limited": 1},
    "meshed": {"buses": 10, "loops": 6, "batteries": 3, "limited": 2},
    "dense": {"buses": 6, "loops": 20, "batteries": 3, "limited": 1},
    "two points": {"buses": 2, "loops": 5, "batteries": 1, "limited": 1},
}
SEEDS = range(4)


def _studied(shape: str, seed: int) -> tuple[Network, Study]:
    network = connect(random_system(seed, **SHAPES[shape]))
    return network, study(network)


@pytest.fixture(
    params=[(shape, seed) for shape in SHAPES for seed in SEEDS],
    ids=lambda case: f"{case[0]}-{case[1]}",
)
def case(request: pytest.FixtureRequest) -> tuple[Network, Study]:
    return _studied(*request.param)


def test_fault_currents(case: tuple[Network, Study]) -> None:
    network, found = case
    for largest, ask in ((True, found.fault_max), (False, found.fault_min)):
        dense = Dense(network, largest=largest)
        for point, name in enumerate(network.points):
            (expected,), _ = dense.fault(point)
            assert number(ask(name)) == pytest.approx(expected, rel=1e-4), name


def test_duties(case: tuple[Network, Study]) -> None:
    network, found = case
    for branch in network.branches:
        dense = Dense(network, largest=True, without=branch.element.name)
        if np.linalg.cond(dense.matrix) > 1e14:
            # Taking it out leaves a piece without battery: no current from there but injected.
            dense.matrix += np.eye(len(dense.matrix)) * 1e-9
        arriving, _ = dense.fault(branch.start, branch.end)
        expected = max(abs(arriving))
        assert number(found.duty(branch.element)) == pytest.approx(expected, rel=1e-4)


def test_duty_of_an_open_switch(case: tuple[Network, Study]) -> None:
    network, found = case
    for element in network.open_elements:
        dense = Dense(network, largest=True)
        ends = network.index[element.start], network.index[element.end]
        if any(not abs(dense.matrix[end]).sum() for end in ends):
            continue
        arriving, _ = dense.fault(*ends)
        assert number(found.duty(element)) == pytest.approx(max(abs(arriving)), rel=1e-4)


def test_design_currents_and_voltages(case: tuple[Network, Study]) -> None:
    network, found = case
    dense = Dense(network, largest=False)
    cases = [
        dense.emf + dense.drawn,
        dense.emf + dense.injected,
        dense.emf + dense.drawn + dense.injected,
        dense.emf,
    ]
    voltages = [dense.voltages(currents) for currents in cases]
    for point, name in enumerate(network.points):
        assert number(found.load_voltage(name)) == pytest.approx(voltages[0][point], abs=1e-4)
    for position, branch in enumerate(network.branches):
        if branch.high < 1e-8:
            continue
        expected = max(abs(dense.through(position, voltage)) for voltage in voltages)
        assert number(found.load(branch.element)) == pytest.approx(expected, rel=1e-3, abs=2e-2)


def test_least_fault_current_through(case: tuple[Network, Study]) -> None:
    network, found = case
    dense = Dense(network, largest=False)
    for position, branch in enumerate(network.branches):
        if branch.high < 1e-8:
            continue
        expected = _least_toward(network, dense, position)
        assert number(found.fault_min_through(branch.element)) == pytest.approx(
            expected, rel=1e-3, abs=0.05
        ), branch.element.name


def _least_toward(network: Network, dense: Dense, branch: int) -> float:
    """Least current through a branch towards a fault beyond it, up to the next devices."""
    ends = network.branches[branch].end, network.branches[branch].start
    currents = []
    for end, direction in zip(ends, (1, -1), strict=True):
        for point in _flood(network, end, branch):
            (fault,), voltages = dense.fault(point)
            current = direction * dense.through(branch, voltages)
            if current > 1e-6 * fault:
                currents.append(current)
    return min(currents, default=0.0)


def _flood(network: Network, start: int, without: int) -> set[int]:
    seen, waiting = {start}, [start]
    while waiting:
        here = waiting.pop()
        for number_, branch in enumerate(network.branches):
            if number_ == without or here not in (branch.start, branch.end):
                continue
            if branch.element.kind == "fuse":
                continue
            beyond = branch.end if branch.start == here else branch.start
            if beyond not in seen:
                seen.add(beyond)
                waiting.append(beyond)
    return seen


shapes = st.fixed_dictionaries(
    {
        "buses": st.integers(2, 8),
        "loops": st.integers(0, 6),
        "batteries": st.integers(1, 3),
        "limited": st.integers(0, 2),
    }
)


@settings(max_examples=40, deadline=None)
@given(seed=st.integers(0, 10**6), shape=shapes)
def test_any_shape(seed: int, shape: dict[str, int]) -> None:
    network = connect(random_system(seed, **shape))
    found = study(network)
    for largest, ask in ((True, found.fault_max), (False, found.fault_min)):
        dense = Dense(network, largest=largest)
        for point, name in enumerate(network.points):
            (expected,), _ = dense.fault(point)
            assert number(ask(name)) == pytest.approx(expected, rel=1e-4), name


@settings(max_examples=25, deadline=None)
@given(seed=st.integers(0, 10**6), shape=shapes)
def test_superposition_and_reciprocity(seed: int, shape: dict[str, int]) -> None:
    """Voltages of two sets of currents add; A at p seen at q is A at q seen at p."""
    network = connect(random_system(seed, **shape))
    solved = study(network)._figures.high
    points = [seed % len(network.points), (seed // 7) % len(network.points)]
    one, other = (solved.voltages(solved.gather([(p, 10.0)])) for p in points)
    both = solved.voltages(solved.gather([(p, 10.0) for p in points]))
    assert both == pytest.approx([a + b for a, b in zip(one, other, strict=True)], rel=1e-9)
    assert one[points[1]] == pytest.approx(other[points[0]], rel=1e-9)
