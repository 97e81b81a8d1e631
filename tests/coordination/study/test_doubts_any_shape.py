"""No result that is given as known may change when what is not stated turns out to be large.

Random networks with fuses of unstated resistance are studied, then again with 4 mΩ in each of them,
and with batteries of unstated largest resistance, then again with ten times the least one.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from catalogue.parts import Band, Battery, Fuse, Part
from coordination.model import Element, System
from coordination.network import connect
from coordination.study import Study, study
from coordination.trace import Derived, Value
from tests.coordination.study.random_systems import random_system

shapes = st.fixed_dictionaries(
    {
        "buses": st.integers(2, 8),
        "loops": st.integers(0, 4),
        "batteries": st.integers(1, 3),
        "limited": st.integers(0, 2),
    }
)


def with_fuses(system: System, resistance: Band | None) -> System:
    """The system with another resistance in every fuse that had none."""

    def changed(element: Element) -> Element:
        part = element.part
        if isinstance(part, Fuse) and part.resistance == Band(0.0, 0.0):
            return replace(element, part=replace(part, resistance=resistance))
        return element

    circuits = {
        name: replace(circuit, elements=tuple(changed(e) for e in circuit.elements))
        for name, circuit in system.circuits.items()
    }
    return replace(system, circuits=circuits)


def with_batteries(system: System, change: Callable[[Battery], Part]) -> System:
    """The system with its first battery changed."""
    sources = dict(system.sources)
    first = next(name for name, source in sources.items() if source.part is not None)
    part = sources[first].part
    assert part is not None
    sources[first] = replace(sources[first], part=change(part))
    return replace(system, sources=sources)


def answers(found: Study) -> dict[str, Value]:
    values: dict[str, Value] = {}
    for element in found.subjects("element"):
        values[f"load of {element.name}"] = found.load(element)
        values[f"through {element.name}"] = found.fault_min_through(element)
    for point in found.network.points:
        values[f"fault at {point}"] = found.fault_min(point)
        values[f"voltage at {point}"] = found.load_voltage(point)
    for equipment in found.subjects("equipment"):
        values[f"drop to {equipment.name}"] = found.drop(equipment)
    for busbar in found.subjects("busbar"):
        values[f"into {busbar.name}"] = found.incoming(busbar)
        values[f"section of {busbar.name}"] = found.section_load(busbar)
    for source in found.subjects("source"):
        values[f"from {source.name}"] = found.battery_current(source)
    return values


def hold(unstated: System, stated: System) -> int:
    """Compare what is known in the first with the second; gives how much was unknown."""
    known, now = (answers(study(connect(system))) for system in (unstated, stated))
    for name, value in known.items():
        if isinstance(value, Derived):
            later = now[name]
            assert isinstance(later, Derived), name
            assert value.value == pytest.approx(later.value, rel=1e-5, abs=1e-5), name
    return sum(not isinstance(value, Derived) for value in known.values())


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), shape=shapes)
def test_fuses(seed: int, shape: dict[str, int]) -> None:
    system = random_system(seed, **shape, bare=0.5)
    hold(with_fuses(system, None), with_fuses(system, Band(0.0, 4e-3)))


def test_something_is_unknown() -> None:
    system = random_system(3, buses=6, loops=2, batteries=2, limited=1, bare=0.6)
    assert hold(with_fuses(system, None), with_fuses(system, Band(0.0, 4e-3))) > 20


@settings(max_examples=30, deadline=None)
@given(seed=st.integers(0, 10**6), shape=shapes)
def test_batteries(seed: int, shape: dict[str, int]) -> None:
    system = random_system(seed, **shape)

    def declared(part: Battery) -> Part:
        assert part.emf is not None
        assert part.resistance is not None
        amps = part.emf.max / part.resistance.min
        return replace(part, resistance=None, short_circuit_current=amps)

    def worn(part: Battery) -> Part:
        assert part.resistance is not None
        return replace(part, resistance=Band(part.resistance.min, 10 * part.resistance.min))

    hold(with_batteries(system, declared), with_batteries(system, worn))
