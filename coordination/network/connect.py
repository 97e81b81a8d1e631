"""From the model to the network of one condition: which points there are, what joins them."""

from __future__ import annotations

from functools import lru_cache

from coordination.model import Condition, Element, System
from coordination.network import supply
from coordination.network.graph import Branch, Network
from coordination.network.loop import Loops


def connect(system: System, condition: str = "normal", loops: Loops | None = None) -> Network:
    """The network of `system` in one of its conditions.

    loops -- the elements' loops; by default those of the system's other conditions
    Raises KeyError if the system has no such condition ("normal" always exists).
    """
    state = system.conditions.get(condition)
    if state is None:
        if condition != "normal":
            raise KeyError(condition)
        state = Condition(name="normal", line=0)
    loops = loops_of(system) if loops is None else loops
    points = _points(system)
    index = {name: number for number, name in enumerate(points)}
    branches: list[Branch] = []
    open_elements: list[Element] = []
    for circuit in system.circuits.values():
        whole = circuit.name in state.open or circuit.name in state.without
        for element in circuit.elements:
            if whole or _is_open(element, state):
                open_elements.append(element)
            else:
                branches.append(
                    Branch(element, index[element.start], index[element.end], *loops.plain(element))
                )
    return Network(
        system=system,
        condition=state,
        points=points,
        index=index,
        branches=tuple(branches),
        open_elements=tuple(open_elements),
        feeds=supply.feeds(system, state, index),
        injections=supply.injections(system, state, index),
        draws=supply.draws(system, state, index),
        loops=loops,
    )


class _Same:
    """A system by identity: its fields cannot be hashed."""

    def __init__(self, system: System) -> None:
        self.system = system

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.system is self.system

    def __hash__(self) -> int:
        return id(self.system)


@lru_cache(maxsize=1)
def _loops(_: _Same) -> Loops:
    return Loops()


def loops_of(system: System) -> Loops:
    """The loops of a system's elements: the same for all its conditions, so kept for the last."""
    return _loops(_Same(system))


def _points(system: System) -> tuple[str, ...]:
    names: dict[str, None] = {}
    for group in (system.sources, system.busbars, system.equipment):
        names.update(dict.fromkeys(group))
    for converter in system.converters:
        names[f"{converter}.input"] = names[f"{converter}.output"] = None
    for circuit in system.circuits.values():
        for element in circuit.elements:
            names[element.start] = names[element.end] = None
    return tuple(names)


def _is_open(element: Element, condition: Condition) -> bool:
    """Whether an element is open: as drawn, unless the condition opens, closes or removes it."""
    if element.name in condition.open or element.name in condition.without:
        return True
    return element.normally_open and element.name not in condition.close
