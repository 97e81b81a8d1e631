"""A cable must outlast the fault until its device has cleared it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Derived, Judgement, Value, capped, compare, rule, unproven
from fusewright_iec_low_voltage.conductor import installations
from fusewright_iec_low_voltage.guard import Bare, guard
from fusewright_iec_low_voltage.options import asked, stated
from fusewright_iec_low_voltage.parts_of_standard import overcurrent
from fusewright_iec_low_voltage.stated import rating
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
    """Clearing I²t of the one device that protects the cable against k² S² of each leg."""
    found = guard(cable, study)
    if found is None:
        return
    if isinstance(found, Bare) or len(found.devices) != 1 or found.limited:
        yield unproven(f"{cable.name}: one device that clears its faults")
        return
    device = found.devices[0]
    words = f"energy {device.name} lets through"
    energy = rating(device.part, "clearing_i2t", words, "J", "A²s")
    for leg in installations(cable, study):
        yield _against(energy, leg, study)
    if isinstance(energy, Derived):
        yield from _weak_fault(energy, study.fault_min_through(device), device)


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
