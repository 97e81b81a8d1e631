"""Writes plants as ngspice circuits of resistors, sources and switches, and reads what comes back.

A block is one condition in one bound. All blocks of a system stand side by side in one circuit; a
fault is a switch that closes onto a meter, a device is taken out by a switch that opens. Faults at
a point are so measured in all blocks with one operating point.
"""

from __future__ import annotations

import re
import shutil
import subprocess
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from tests.oracle.plant import Element, Plant, Supply

#: Stand-in [Ω] for what has no resistance: ngspice takes none.
NONE = 1e-9
#: Same in the load cases, where a current is read as a voltage over it.
LITTLE = 1e-8
MODELS = """\
.model bolt sw(vt=0.5 vh=0 ron=1e-9 roff=1e12)
.model link sw(vt=0.5 vh=0 ron=1e-9 roff=1e3)
.options reltol=1e-9 abstol=1e-9 vntol=1e-12 noacct
"""
_VALUE = re.compile(r"^(\S+) = (\S+)\s*$", re.MULTILINE)


def there() -> bool:
    """Whether ngspice is installed."""
    return shutil.which("ngspice") is not None


def run(netlist: str) -> str:
    """What ngspice prints. Raises RuntimeError if it fails or complains of the circuit."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "circuit.cir"
        path.write_text(netlist, encoding="ascii")
        done = subprocess.run(
            ["ngspice", "-b", str(path)], capture_output=True, text=True, check=False, cwd=folder
        )
    bad = re.search(r"singular|error|no convergence|aborted", done.stdout + done.stderr, re.I)
    if bad:
        raise RuntimeError(f"ngspice: {done.stdout[-1500:]}{done.stderr[-1500:]}")
    return done.stdout


def values(text: str) -> dict[str, float]:
    """Every `name = number` in a piece of output."""
    return {name: float(number) for name, number in _VALUE.findall(text)}


@dataclass
class Block:
    """One condition in one bound; `number` tells its nodes apart.

    high -- the min bound; unstated -- resistance [Ω] put in for what is not stated
    """

    plant: Plant
    condition: str
    number: int
    high: bool
    unstated: float = 0.0

    def __post_init__(self) -> None:
        self.index = {point: n for n, point in enumerate(self.plant.points)}
        self.closed = [
            e for e in self.plant.elements if self.plant.closed(e, self.condition)
        ]
        self.around: dict[str, list[Element]] = {point: [] for point in self.plant.points}
        for element in self.closed:
            self.around[element.start].append(element)
            self.around[element.end].append(element)
        self.island = _islands(self.plant.points, self.closed)
        self.present = list(self.plant.present(self.condition))
        self.batteries = {
            self.island[s.point] for s in self.present if s.part is not None
        }

    def node(self, point: str) -> str:
        """The node of a point."""
        return f"n{self.number}_{self.index[point]}"

    def ohms(self, element: Element) -> float:
        """Resistance of an element in this bound."""
        if not self.high:
            return element.low
        return self.unstated if element.high is None else element.high

    def inner(self, supply: Supply) -> tuple[float, float]:
        """EMF [V] and resistance [Ω] of a battery in this bound."""
        if self.high:
            return supply.emf[0], supply.ohms_high or self.unstated or 1e-3
        return supply.emf[1], supply.ohms_low or 1e-3

    def held(self) -> Iterator[str]:
        """Ties to ground where no battery holds an island, and the batteries."""
        tied = set(self.batteries)
        for point in self.plant.points:
            if self.island[point] not in tied:
                tied.add(self.island[point])
                yield f"Rt{self.number}_{self.index[point]} {self.node(point)} 0 1e3"
        for n, supply in enumerate(self.present):
            if supply.part is not None:
                emf, ohms = self.inner(supply)
                name, node = f"{self.number}_{n}", self.node(supply.point)
                yield f"Ve{name} e{name} 0 {emf:.12g}"
                yield f"Rb{name} e{name} {node} {ohms:.12g}"


def _islands(points: list[str], closed: list[Element]) -> dict[str, int]:
    around: dict[str, list[str]] = {point: [] for point in points}
    for element in closed:
        around[element.start].append(element.end)
        around[element.end].append(element.start)
    island: dict[str, int] = {}
    for number, first in enumerate(points):
        waiting = [first]
        while waiting:
            point = waiting.pop()
            if point not in island:
                island[point] = number
                waiting += around[point]
    return island
