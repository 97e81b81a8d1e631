"""A cable must carry its load by the tables of part 5-52, as it is installed."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, compare, rule
from fusewright_iec_low_voltage.conductor import against_ampacity
from fusewright_iec_low_voltage.parts_of_standard import wiring

CARD = Card(
    name="cable-carries-load",
    title="Cable carries its load by the tables",
    why="523: the current of normal operation leaves a conductor within its insulation's "
    "temperature: Ib ≤ Iz, by reference method, with the factors for air and grouping.",
    wrong="A cable chosen for a surface, laid in a conduit with three others in a warm locker.",
    right="A larger cable, a cooler or looser run, or another method of laying it.",
    severity="fire",
    basis="standard",
    source=wiring("523 with Annex B, Tables B.52.2 to B.52.17"),
)


@rule(CARD, each="cable")
def cable_carries_load(cable: Any, study: Any) -> Iterator[Judgement]:
    """Largest design current against the ampacity of each leg."""
    load = study.load(cable)
    yield from against_ampacity(cable, study, lambda limit: compare(load, at_most=limit))
