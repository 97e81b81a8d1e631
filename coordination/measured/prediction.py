"""What the study predicts for the currents at which somebody measured."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from catalogue.records import Band
from coordination.errors import OutOfRange
from coordination.network import connect
from coordination.physics.temperature import load_temperature
from coordination.study import study
from coordination.trace import Derived, Unknown, given
from coordination.trace import Source as Origin

if TYPE_CHECKING:
    from coordination.measured.record import DropRecord, TerminalRecord
    from coordination.model import Element, Equipment, System
    from coordination.network import Network
    from coordination.rules.finding import Findings

RULE = "voltage-drop"


def predicted_drop(findings: Findings, condition: str, drop: DropRecord) -> Band | None:
    """Voltage [V] lost on the way to a load at the measured current; None: not known.

    From copper at 20 °C and devices without resistance, as for the largest fault, to hot copper and
    all that parts state at most, as for the weakest.
    """
    system = _drawing(findings.system, condition, drop)
    network = connect(system, condition)
    equipment = system.equipment[drop.name]
    ends = [study(each).drop(equipment) for each in (_cold(network), network)]
    known = [each.value for each in ends if isinstance(each, Derived)]
    return Band(min(known), max(known)) if len(known) == len(ends) else None


def _drawing(system: System, condition: str, drop: DropRecord) -> System:
    """The system with the load at the measured current, and the others off if they were."""
    own: Equipment = replace(
        system.equipment[drop.name], current=drop.current, power=None, efficiency=None,
        min_voltage=None, written={},
    )  # fmt: skip
    state = system.conditions[condition]
    others = dict.fromkeys((*system.equipment, *system.converters), 0.0)
    draw = dict(others if drop.alone else state.draw)
    draw.pop(drop.name, None)
    return replace(
        system,
        equipment={**system.equipment, drop.name: own},
        conditions={**system.conditions, condition: replace(state, draw=draw)},
    )


def _cold(network: Network) -> Network:
    """The same network with the least resistance of everything."""
    branches = (replace(each, high=each.low, missing=()) for each in network.branches)
    return replace(network, branches=tuple(branches))


def predicted_temperature(
    findings: Findings, condition: str, element: Element, measured: TerminalRecord
) -> float | None:
    """Warmest [°C] that a cable which ends on a device becomes at the measured current and air."""
    here: Any = findings.studies.get(condition)
    if here is None:
        return None
    found = [
        _warmed(here, cable, leg, measured)
        for cable in here.neighbours(element)
        for leg in here.legs(cable)[:1]
    ]
    known = [each for each in found if each is not None]
    return max(known) if known and len(known) == len(found) else None


def _warmed(here: Any, cable: Any, leg: Any, measured: TerminalRecord) -> float | None:
    """T = Ta + (T_rated − Ta_design) (I / Iz)²: the design's ampacity, the air of the day."""
    limit, rated = here.ampacity(cable, leg), leg.insulation_temperature
    if isinstance(limit, Unknown) or isinstance(rated, Unknown):
        return None
    design = here.ambient(cable).value
    try:
        return load_temperature(
            measured.current, limit.value, measured.ambient, rated.value, design
        )
    except OutOfRange:
        return None


def design_load(findings: Findings, element: Element) -> float | None:
    """The largest design current [A] of all conditions; None: not known in one of them."""
    loads = [each.load(element) for each in findings.studies.values()]
    known = [each.value for each in loads if isinstance(each, Derived)]
    return max(known) if known and len(known) == len(loads) else None


def allowed_drop(findings: Findings, equipment: Equipment) -> Derived | None:
    """Voltage [V] that may be lost: what the file states, else what its rule asked for."""
    share = equipment.drop_limit
    if share is None:
        share = _asked(findings, equipment.name)
    nominal = [each.island_nominal(equipment.name) for each in findings.studies.values()]
    known = [each.value for each in nominal if isinstance(each, Derived)]
    if share is None or not known or len(known) < len(nominal):
        return None
    origin = Origin("definition", f"{share * 100:.3g} % of the nominal voltage")
    return given("allowed voltage drop", "U", share * min(known), "V", origin)


def _asked(findings: Findings, name: str) -> float | None:
    for each in findings.findings:
        if (each.rule.rpartition("/")[2], each.subject, each.relation) == (RULE, name, "<="):
            return each.required.value if isinstance(each.required, Derived) else None
    return None
