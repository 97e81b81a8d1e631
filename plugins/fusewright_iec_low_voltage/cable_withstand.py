"""A cable must outlast the fault until its device has cleared it."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import sqrt
from typing import Any

from coordination.rules import (
    DEFINITION,
    Card,
    Derived,
    Judgement,
    Value,
    capped,
    compare,
    derive,
    rule,
    unproven,
)
from coordination.rules.kit.installed import installations
from coordination.rules.kit.stated import rating
from fusewright_iec_low_voltage.guard import sides
from fusewright_iec_low_voltage.options import asked, stated
from fusewright_iec_low_voltage.parts_of_standard import overcurrent
from fusewright_iec_low_voltage.withstand import withstand

#: A stated clearing I²t holds for faults cleared within this time [s]; longer ones need a curve.
ADIABATIC = 0.01
CARD = Card(
    name="cable-withstand",
    title="Cable outlasts the fault (k² S²)",
    why="434.5.2: the energy the device lets through, I² t, is at most k² S² of the cable, for "
    "every fault along it. By the stated clearing I²t this is shown for faults that are cleared "
    "within 10 ms; weaker ones need the device's curve and stay unproven here.",
    wrong="A 2.5 mm² tail behind a 100 A fuse.",
    right="A fuse that lets less energy through, or a larger cable.",
    severity="paperwork",
    basis="standard",
    source=overcurrent("434.5.2"),
)


@rule(CARD, each="cable")
def cable_withstand(cable: Any, study: Any) -> Iterator[Judgement]:
    """What the devices at each end let through together against k² S² of each leg.

    A fault parts the cable: each piece carries what comes from its own end. Self-limiting sources
    add no more than a load does.
    """
    for end, side in zip(("start", "end"), sides(cable, study), strict=True):
        if side.exposed:
            names = ", ".join(source.name for source in side.exposed)
            yield unproven(f"a device that clears its faults between {names} and its {end}")
        elif side.devices:
            yield from _end(side.devices, cable, study)


def _end(devices: tuple[Any, ...], cable: Any, study: Any) -> Iterator[Judgement]:
    energy = _together([_let_through(device, n) for n, device in enumerate(devices, 1)])
    for leg in installations(cable, study):
        yield _against(energy, leg, study)
    for device in devices:
        own = _let_through(device, 1)
        if isinstance(own, Derived):
            yield from _weak_fault(own, study.fault_min_through(device), device)


def _let_through(device: Any, number: int) -> Value:
    words = f"energy {device.name} lets through"
    return rating(device.part, "clearing_i2t", words, f"J_{number}", "A²s")


def _together(energies: Sequence[Value]) -> Value:
    """Largest energy [A²s] of currents that add up: (√J₁ + √J₂ + …)² (Minkowski's inequality)."""
    if len(energies) == 1:
        return energies[0]
    roots = " + ".join(f"sqrt(J_{n})" for n in range(1, len(energies) + 1))
    return derive(
        lambda *each: sum(map(sqrt, each)) ** 2, "energy they let through together", "J", "A²s",
        f"({roots})^2", *energies, source=DEFINITION,
    )  # fmt: skip


def _against(energy: Value, leg: Any, study: Any) -> Judgement:
    insulation = stated(study, "insulation")
    judgement = compare(energy, at_most=withstand(leg, insulation or "thermoplastic"))
    if insulation is None and judgement.verdict == "fail":
        better = compare(energy, at_most=withstand(leg, "thermosetting"))
        if better.verdict == "pass":
            return unproven(asked("insulation"))
    return capped(judgement)


def _weak_fault(energy: Derived, least: Value, device: Any) -> Iterator[Judgement]:
    """Unproven where the weakest fault is not cleared within 10 ms by the stated energy."""
    if not isinstance(least, Derived):
        yield unproven(*least.missing)
    elif least.value**2 * ADIABATIC < energy.value:
        yield unproven(f"{device.part.id}: its curve at {least.value:.0f} A, the weakest fault")
