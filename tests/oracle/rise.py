"""Rise times of faults by ngspice's transient analysis.

The engine states one time constant for each point: L / R of the loop; in a mesh the first moment
of the current's rise, ∫ (1 − i/I) dt, after a step of voltage at the point with every battery at
rest. Both are measured here: the moment for any network, and for a single loop the time to 63.2 %
with the battery driving.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from math import exp
from random import Random

from tests.oracle.plant import Plant
from tests.oracle.spice import NONE, Block, run

#: How many expected time constants are simulated, and in how many steps each is cut.
LASTS, STEPS = 60.0, 12.0
#: Longest simulation, in expected time constants; moment that may be left out, as a share.
LONGEST, UNSETTLED = 20.0 * LASTS, 2e-3
ACCURACY = ".options reltol=1e-4 abstol=1e-6 vntol=1e-9 chgtol=1e-9 trtol=50 noacct"
_MEASURED = re.compile(r"^(\w+)\s*=\s*([-+.eE\d]+)", re.MULTILINE)


def known(block: Block, answer: dict[str, dict[str, float | None]]) -> list[str]:
    """Points fed by a battery through some inductance, whose time constant the engine gives."""
    return [
        point
        for point in block.plant.points
        if (answer[point]["time_constant_s"] or 0.0) > 1e-9
        and block.island[point] in block.batteries
    ]


def moments(plant: Plant, expected: dict[str, float]) -> dict[str, float]:
    """Point to the first moment [s] of the rise of a fault there, in the normal condition.

    expected -- the points, with about how long it takes [s]: for the length of the simulation only

    A mesh may have currents that settle far more slowly than its fault's: what has not settled is
    simulated again, four times as long.
    """
    found, lasts = {}, LASTS
    waiting = dict(expected)
    while waiting and lasts < LONGEST:
        for point, (moment, moving) in _simulated(plant, waiting, lasts).items():
            found[point] = moment
            if moving * lasts < UNSETTLED:
                del waiting[point]
        lasts *= 4.0
    return found


def _simulated(
    plant: Plant, expected: dict[str, float], lasts: float
) -> dict[str, tuple[float, float]]:
    """The moments [s] so far, and by which share each current still moved in the second half."""
    lines = ["* rise", ACCURACY]
    for n, point in enumerate(expected):
        block = Block(plant, "normal", n, False)
        lines += _linear(block, at_rest=True)
        lines += [f"Vs{n} s{n} 0 1", f"Rs{n} s{n} {block.node(point)} {NONE}"]
    step, last = min(expected.values()) / STEPS, lasts * max(expected.values())
    lines += [f".tran {step:.6g} {last:.6g} 0 {step:.6g} uic", ".control", "run"]
    for n in range(len(expected)):
        lines += [f"meas tran q{n} integ i(vs{n}) from=0 to={last:.6g}",
                  f"meas tran h{n} find i(vs{n}) at={last / 2.0:.6g}",
                  f"meas tran e{n} find i(vs{n}) at={last * 0.99999:.6g}"]  # fmt: skip
    lines += ["quit 0", ".endc", ".end", ""]
    got = {name: float(number) for name, number in _MEASURED.findall(run("\n".join(lines)))}
    return {
        point: (last - got[f"q{n}"] / got[f"e{n}"], abs(1.0 - got[f"h{n}"] / got[f"e{n}"]))
        for n, point in enumerate(expected)
    }


def loop_time(plant: Plant, point: str, expected: float) -> float:
    """Time [s] to 63.2 % of a fault at a point that a battery drives."""
    block = Block(plant, "normal", 0, False)
    step, last = expected / 50.0, 14.0 * expected
    share = 1.0 - exp(-1.0)
    lines = [
        "* loop", ACCURACY, *_linear(block, at_rest=False), "Vf f 0 0",
        f"Rf {block.node(point)} f {NONE}",
        f".tran {step:.6g} {last:.6g} 0 {step:.6g} uic", ".control", "run",
        f"meas tran whole find i(vf) at={last * 0.99999:.6g}",
        f"let part = {share:.9f} * whole", "meas tran t63 when i(vf)=$&part", "quit 0",
        ".endc", ".end", "",
    ]  # fmt: skip
    got = {name: float(number) for name, number in _MEASURED.findall(run("\n".join(lines)))}
    return got["t63"]


def _linear(block: Block, *, at_rest: bool) -> Iterator[str]:
    """The block with its inductances; at rest the batteries are their resistances alone."""
    for line in block.held():
        yield re.sub(r"^(Ve\S+ \S+ 0) .*", r"\1 0", line) if at_rest else line
    for n, element in enumerate(block.closed):
        name, a, b = f"{block.number}_{n}", block.node(element.start), block.node(element.end)
        if element.henries:
            yield f"Lr{name} {a} m{name} {element.henries:.12g} ic=0"
            a = f"m{name}"
        yield f"Rr{name} {a} {b} {max(element.low, NONE):.12g}"


def chosen(points: list[str], seed: int, number: int) -> list[str]:
    """Some of the points."""
    return Random(seed).sample(points, min(number, len(points)))


def single_loop(plant: Plant, point: str) -> bool:
    """Whether one battery alone feeds a point of a network without meshes."""
    block = Block(plant, "normal", 0, False)
    here = block.island[point]
    edges = sum(block.island[e.start] == here for e in block.closed)
    nodes = sum(island == here for island in block.island.values())
    fed = [s for s in block.present if s.part is not None and block.island[s.point] == here]
    return len(fed) == 1 and edges == nodes - 1


def compare(plant: Plant, answer: dict[str, dict[str, float | None]], seed: int) -> Rises:
    """Three points of a system: engine's time constants beside what ngspice's transients take."""
    found = Rises()
    points = chosen(known(Block(plant, "normal", 0, False), answer), seed, 3)
    expected = {point: answer[point]["time_constant_s"] or 0.0 for point in points}
    if not points:
        return found
    for point, seconds in moments(plant, expected).items():
        found.moments.append((f"seed {seed}, {point}", expected[point] / seconds - 1.0))
        if single_loop(plant, point):
            measured = loop_time(plant, point, expected[point])
            found.loops.append((f"seed {seed}, {point}", expected[point] / measured - 1.0))
    return found


@dataclass
class Rises:
    """Where, and by which share the engine's time constant is off."""

    moments: list[tuple[str, float]] = field(default_factory=list)
    loops: list[tuple[str, float]] = field(default_factory=list)

    def merge(self, other: Rises) -> None:
        """Add others."""
        self.moments += other.moments
        self.loops += other.loops

    def off(self, tolerance: float = 0.02) -> list[str]:
        """Those beyond the tolerance."""
        return [f"{where}: {share:+.2%}" for where, share in (*self.moments, *self.loops)
                if abs(share) > tolerance]  # fmt: skip
