"""A device's terminals must not be heated past their limit by the cables joined to them."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Source, compare, rule
from coordination.rules.kit.stated import rating
from fusewright_fundamentals.legs import leg_of

CARD = Card(
    name="terminal-temperature",
    title="Terminals stay below their temperature limit",
    why="A cable of high insulation class may run hotter than the fuse holder or switch it is "
    "bolted to bears: the heat flows into the terminal, softens its housing, opens the fuse early.",
    wrong="A 105 °C cable loaded to its full ampacity on a terminal made for 75 °C.",
    right="A larger cable that runs cooler, or a device with a higher terminal limit.",
    severity="damage",
    source=Source("NFPA 70:2023", clause="110.14(C)"),
)


@rule(CARD, each=("device", "disconnect"))
def terminal_temperature(device: Any, study: Any) -> Iterator[Judgement]:
    """Temperature of each adjoining conductor under load against the terminals' limit."""
    limit = rating(device.part, "terminal_limit", "terminal limit", "T_lim", "°C")
    for cable in study.neighbours(device):
        leg = leg_of(cable, study, "positive")
        yield compare(study.conductor_temperature(cable, leg), at_most=limit)
