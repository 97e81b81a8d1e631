"""Sets the engine's numbers beside ngspice's, by kind of quantity."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from tests.oracle.operating_points import Measured, measure
from tests.oracle.plant import Plant
from tests.oracle.spice import Block

#: Largest deviation, as a share.
TOLERANCE = 1e-3
#: Current [A], or voltage [V], below which a deviation counts as a share of this much.
LEAST = 1.0
#: What is put in, by turns, for a resistance that is not stated [Ω].
UNSTATED = (0.0, 0.02)


@dataclass
class Tally:
    """What was compared: numbers by kind, the worst deviation of each, and what was off.

    unknown -- numbers that the engine does not give, by kind
    bounds  -- duties in islands with limited sources only, where the engine's is an upper bound
    """

    systems: int = 0
    compared: dict[str, int] = field(default_factory=dict)
    worst: dict[str, float] = field(default_factory=dict)
    unknown: dict[str, int] = field(default_factory=dict)
    bounds: int = 0
    off: list[str] = field(default_factory=list)

    def add(self, kind: str, where: str, ours: float, theirs: float) -> None:
        """One number of the engine and ngspice's."""
        self.compared[kind] = self.compared.get(kind, 0) + 1
        deviation = abs(ours - theirs) / max(abs(theirs), LEAST)
        self.worst[kind] = max(self.worst.get(kind, 0.0), deviation)
        if deviation > TOLERANCE:
            self.off.append(f"{where}: {kind} {ours:.6g}, ngspice {theirs:.6g}")

    def missing(self, kind: str, where: str, excused: bool) -> None:
        """A number that the engine does not give."""
        self.unknown[kind] = self.unknown.get(kind, 0) + 1
        if not excused:
            self.off.append(f"{where}: {kind} is unknown though everything is stated")

    def merge(self, other: Tally) -> None:
        """Add another tally."""
        self.systems += other.systems
        self.bounds += other.bounds
        self.off += other.off
        for kind, number in other.compared.items():
            self.compared[kind] = self.compared.get(kind, 0) + number
        for kind, number in other.unknown.items():
            self.unknown[kind] = self.unknown.get(kind, 0) + number
        for kind, deviation in other.worst.items():
            self.worst[kind] = max(self.worst.get(kind, 0.0), deviation)


@dataclass
class _Side:
    """One condition of one system by ngspice, with one stand-in for what is not stated."""

    tally: Tally
    measured: Measured
    block: Block
    complete: bool
    where: str

    def points(self, entries: dict[str, Any]) -> None:
        """Faults and voltages."""
        for point, numbers in entries.items():
            key, measured = (self.block.condition, point), self.measured
            self._one("fault_max_A", point, numbers, measured.fault_max[key])
            self._one("fault_min_A", point, numbers, measured.fault_min[key])
            self._one("load_voltage_V", point, numbers, measured.voltage.get(key))

    def elements(self, entries: dict[str, Any]) -> None:
        """Duties and loads. Limited sources may be asked for more than they give: no load then."""
        for element in self.block.plant.elements:
            numbers, key = entries[element.name], (self.block.condition, element.name)
            held = self.block.island[element.start] in self.block.batteries
            duty, load = self.measured.duty.get(key), self.measured.load.get(key, 0.0)
            if duty is not None and not held and (numbers["duty_A"] or 0.0) > duty * 1.001:
                self.tally.bounds += 1
            elif duty is not None:
                self._one("duty_A", element.name, numbers, duty)
            if held or numbers["load_A"] is not None:
                self._one("load_A", element.name, numbers, load)

    def _one(self, kind: str, name: str, numbers: dict[str, Any], theirs: float | None) -> None:
        ours = numbers[kind]
        if ours is None:
            excused = not self.complete or theirs is None
            self.tally.missing(kind, f"{self.where}, {name}", excused)
        elif theirs is not None:
            self.tally.add(kind, f"{self.where}, {name}", ours, theirs)


def compare(plant: Plant, answer: dict[str, Any], seed: int) -> Tally:
    """Every point and element of every condition.

    Where something is not stated, a number that the engine gives all the same must hold whatever
    it is: it is compared with ngspice's for each stand-in.
    """
    tally, complete = Tally(systems=1), _complete(plant)
    for unstated in UNSTATED[:1] if complete else UNSTATED:
        measured = measure(plant, unstated)
        for condition, entry in answer["conditions"].items():
            where = f"seed {seed}, {condition} ({unstated} Ω)"
            block = Block(plant, condition, 0, False)
            side = _Side(tally, measured, block, complete, where)
            side.points(entry["points"])
            side.elements(entry["elements"])
    return tally


def _complete(plant: Plant) -> bool:
    """Whether every resistance is stated."""
    stated = all(e.high is not None for e in plant.elements)
    return stated and all(
        s.ohms_low and s.ohms_high for s in plant.supplies if s.part is not None
    )
