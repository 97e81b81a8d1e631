"""Random systems: trees, loops, parallel strings, devices without resistance, open links."""

from __future__ import annotations

from random import Random

from coordination.model import System
from tests.coordination.study.hand_made import Builder, battery, cable, fuse, joint, run, switch


def random_system(
    seed: int, buses: int, loops: int, batteries: int, limited: int, *, bare: float = 0.3
) -> System:
    """bare -- share of devices without resistance (never a whole circuit)."""
    chance = Random(seed)
    builder = Builder(nominal_voltage=24.0)
    for number in range(buses):
        builder.bus(f"bus {number}")
    for number in range(1, buses):
        _circuit(
            builder,
            chance,
            f"tree {number}",
            f"bus {chance.randrange(number)}",
            f"bus {number}",
            bare,
        )
    for number in range(loops):
        one, other = chance.sample(range(buses), 2)
        _circuit(builder, chance, f"loop {number}", f"bus {one}", f"bus {other}", bare)
    for number in range(batteries):
        low = chance.uniform(1e-3, 2e-2)
        builder.battery(
            f"pack {number}",
            battery(
                f"pack {number}",
                (chance.uniform(24, 25.5), chance.uniform(26, 28)),
                (low, low * chance.uniform(1, 2)),
            ),
        )
        _circuit(
            builder,
            chance,
            f"string {number}",
            f"pack {number}",
            f"bus {chance.randrange(buses)}",
            bare,
        )
    for number in range(limited):
        builder.limited(f"charger {number}", chance.uniform(5, 100), 28.0)
        _circuit(
            builder,
            chance,
            f"charge {number}",
            f"charger {number}",
            f"bus {chance.randrange(buses)}",
            bare,
        )
    for number in range(buses):
        builder.load(f"load {number}", chance.uniform(1, 50))
        _circuit(
            builder,
            chance,
            f"branch {number}",
            f"bus {chance.randrange(buses)}",
            f"load {number}",
            bare,
        )
    if buses > 1:
        builder.circuit(
            "link",
            "bus 0",
            f"bus {buses - 1}",
            {"part": switch("open", None), "normally_open": True},
            joint(1e-3),
        )
    return builder.system()


def _circuit(
    builder: Builder, chance: Random, name: str, start: str, end: str, bare: float
) -> None:
    low = 10 ** chance.uniform(-4, -2)
    wire = cable(
        f"wire of {name}", (low, low * chance.uniform(1, 1.3)), chance.choice([60.0, 90.0, 105.0])
    )
    parts: list[object] = [run(wire, chance.uniform(0.2, 5.0))]
    for _ in range(chance.randrange(3)):
        ohms = 0.0 if chance.random() < bare else 10 ** chance.uniform(-5, -3)
        device = fuse(f"device {ohms}", (0.0, ohms)) if chance.random() < 0.6 else joint(ohms)
        parts.insert(chance.randrange(len(parts) + 1), device)
    builder.circuit(name, start, end, *parts)
