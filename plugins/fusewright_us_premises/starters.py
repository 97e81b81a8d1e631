"""Conductors to an engine's starter, which article 480 lets go without a device."""

from __future__ import annotations

from typing import Any

from coordination.rules import Judgement, Unknown, note, unproven
from coordination.rules.kit.joined import load_points, reach
from coordination.rules.kit.starters import cranks
from fusewright_us_premises.disconnecting import above
from fusewright_us_premises.editions import Edition
from fusewright_us_premises.scope import in_vehicle

#: Highest nominal voltage [V] of a starter battery that needs no device.
VOLTS = 60.0


def starts_engine(cable: Any, study: Any) -> bool:
    """Whether the cable's circuit brings current to an engine's starter."""
    circuit = study.system.circuits[cable.circuit]
    return cranks(circuit, study, through_devices=True)


def starter_exemption(cable: Any, study: Any, edition: Edition) -> Judgement | None:
    """Whether a starter's cable needs no device; None where article 480 does not exempt it.

    The battery serves starting, ignition and control of its engine only; a vehicle's own maker
    wires its starter, which is none of this code's business.
    """
    source = edition.source(edition.prime_mover, "2014", "2017")
    nominal = study.sources_nominal(cable.start)
    if isinstance(nominal, Unknown):
        return unproven(*nominal.missing)
    if above(nominal.value, VOLTS):
        return None
    met = load_points(reach(cable.start, study), study)
    system = study.system.equipment
    others = sorted(each for each in met if each not in system or not system[each].cranking)
    if others and not in_vehicle(study):
        return unproven(f"that its battery serves its engine only; it feeds {', '.join(others)}")
    return note("starts an engine, battery up to 60 V: no device required", source=source)
