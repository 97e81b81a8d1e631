"""Faults, duties and load currents of a plant by ngspice."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field

from tests.oracle.plant import Plant
from tests.oracle.spice import LITTLE, MODELS, NONE, Block, run, values

Key = tuple[str, str]


@dataclass
class Measured:
    """By (condition, point or element): currents [A], voltages [V].

    through -- [A] through each device for a fault at each point, min bound
    """

    fault_max: dict[Key, float] = field(default_factory=dict)
    fault_min: dict[Key, float] = field(default_factory=dict)
    duty: dict[Key, float] = field(default_factory=dict)
    load: dict[Key, float] = field(default_factory=dict)
    voltage: dict[Key, float] = field(default_factory=dict)


def measure(plant: Plant, unstated: float = 0.0) -> Measured:
    """All of one plant, whatever is not stated taken as so many ohms in the min bound."""
    found = Measured()
    _faults(plant, unstated, found)
    _loads(plant, unstated, found)
    return found


def _faults(plant: Plant, unstated: float, found: Measured) -> None:
    blocks = [
        Block(plant, condition, 2 * n + high, bool(high), unstated)
        for n, condition in enumerate(plant.conditions)
        for high in (0, 1)
    ]
    devices = [e for e in plant.elements if e.kind not in ("cable", "joint")]
    lines = ["* faults", MODELS]
    for n in range(len(plant.points)):
        lines += [f"Va{n} ca{n} 0 0", f"Vb{n} cb{n} 0 0"]
    lines += [f"Vd{n} cd{n} 0 1" for n in range(len(devices))]
    ends = {point for device in devices for point in (device.start, device.end)}
    taken = {device.name: n for n, device in enumerate(devices)}
    for block in blocks:
        lines += _fault_block(block, ends, taken)
    low = [block for block in blocks if not block.high]
    every = " ".join(f"i(vma{block.number})" for block in blocks)
    both = " ".join(f"i(vma{b.number}) i(vmb{b.number})" for b in low)
    # Without `save` and `destroy`, ngspice spends most of its time on vectors nobody reads.
    lines += [".control", "set numdgt=10", f"save {every} {both}"]
    for n in range(len(plant.points)):
        lines += [f"alter va{n} = 1", "op", f"echo ## point {n}", f"print {every}",
                  "destroy all", f"alter va{n} = 0"]  # fmt: skip
    where = blocks[0].index
    for n, device in enumerate(devices):
        a, b = where[device.start], where[device.end]
        lines += [f"alter vd{n} = 0", f"alter va{a} = 1", f"alter vb{b} = 1", "op",
                  f"echo ## device {n}", f"print {both}",
                  "destroy all", f"alter vd{n} = 1", f"alter va{a} = 0",
                  f"alter vb{b} = 0"]  # fmt: skip
    lines += ["quit 0", ".endc", ".end", ""]
    for piece in run("\n".join(lines)).split("## ")[1:]:
        what, number = piece.split(maxsplit=2)[:2]
        amps = values(piece)
        for block in blocks if what == "point" else low:
            arriving = amps[f"i(vma{block.number})"]
            if what == "point":
                into = found.fault_min if block.high else found.fault_max
                into[block.condition, plant.points[int(number)]] = arriving
            else:
                other = amps[f"i(vmb{block.number})"]
                key = (block.condition, devices[int(number)].name)
                found.duty[key] = max(abs(arriving), abs(other))


def _fault_block(block: Block, ends: set[str], taken: dict[str, int]) -> Iterator[str]:
    yield from block.held()
    number = block.number
    for n, element in enumerate(block.closed):
        a, b, ohms = block.node(element.start), block.node(element.end), block.ohms(element)
        if not block.high and element.name in taken:
            yield f"Sd{number}_{n} {a} d{number}_{n} cd{taken[element.name]} 0 link on"
            a = f"d{number}_{n}"
        yield f"Rr{number}_{n} {a} {b} {max(ohms, NONE):.12g}"
    if not block.high:
        for n, supply in enumerate(block.present):
            if supply.part is None:
                yield f"Ii{number}_{n} 0 {block.node(supply.point)} {supply.limit:.12g}"
    yield f"Vma{number} fa{number} 0 0"
    for point, n in block.index.items():
        yield f"Sa{number}_{n} {block.node(point)} fa{number} ca{n} 0 bolt"
    if not block.high:
        yield f"Vmb{number} fb{number} 0 0"
        for point in ends:
            n = block.index[point]
            yield f"Sb{number}_{n} {block.node(point)} fb{number} cb{n} 0 bolt"


#: Load cases: whether equipment draws, whether limited sources give all they can.
CASES = ((True, False), (False, True), (True, True), (False, False))


def _loads(plant: Plant, unstated: float, found: Measured) -> None:
    blocks = [
        (Block(plant, condition, len(CASES) * n + k, True, unstated), draw, charge)
        for n, condition in enumerate(plant.conditions)
        for k, (draw, charge) in enumerate(CASES)
    ]
    lines = ["* loads", MODELS]
    for block, draw, charge in blocks:
        lines += block.held()
        for n, element in enumerate(block.closed):
            a, b = block.node(element.start), block.node(element.end)
            lines.append(f"Rr{block.number}_{n} {a} {b} {max(block.ohms(element), LITTLE):.12g}")
        for n, (point, amps) in enumerate(fed(block, draw, charge)):
            lines.append(f"Ii{block.number}_{n} 0 {block.node(point)} {amps:.12g}")
    lines += [".control", "set numdgt=16", "op", "print all", "quit 0", ".endc", ".end", ""]
    volts = values(run("\n".join(lines)))
    for block, draw, charge in blocks:
        for element in block.closed:
            across = volts[block.node(element.start)] - volts[block.node(element.end)]
            amps = abs(across) / max(block.ohms(element), LITTLE)
            key = (block.condition, element.name)
            found.load[key] = max(amps, found.load.get(key, 0.0))
        if draw and not charge:
            for point in plant.points:
                if block.island[point] in block.batteries:
                    found.voltage[block.condition, point] = volts[block.node(point)]


def fed(block: Block, draw: bool, charge: bool) -> Iterator[tuple[str, float]]:
    """Currents fed in at points. Where no battery is, limited sources give what is drawn, each
    by its limit's share."""
    limits: dict[int, float] = {}
    for supply in block.present:
        if supply.part is None:
            island = block.island[supply.point]
            limits[island] = limits.get(island, 0.0) + supply.limit
    demand: dict[int, float] = {}
    for point, amps in block.plant.drawn(block.condition).items():
        island = block.island[point]
        demand[island] = demand.get(island, 0.0) + amps
        if draw and (island in block.batteries or island in limits):
            yield point, -amps
    for supply in block.present:
        island = block.island[supply.point]
        if supply.part is not None:
            continue
        if island in block.batteries:
            if charge:
                yield supply.point, supply.limit
        elif draw:
            yield supply.point, demand.get(island, 0.0) * supply.limit / limits[island]
