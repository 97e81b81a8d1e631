"""The shore report for machines: plain data, in SI, null where a figure is unknown."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from coordination import __version__
from coordination.report.answer import finite
from coordination.report.energy_answer import steps_in
from coordination.report.shore import NOT_CHECKED
from coordination.trace import unknowns

if TYPE_CHECKING:
    from coordination.report.shore_types import InletEntry, OutputEntry, ShoreAnswer


def shore_answer(studies: Mapping[str, Any], system: Any) -> ShoreAnswer:
    """The answer, as data for json.dumps."""
    first = next(iter(studies.values()))
    return {
        "fusewright": __version__,
        "system": system.name,
        "file": system.file,
        "conditions": {name: _inlets(study) for name, study in studies.items()},
        "inverters": {
            each.name: _output(first.ac_output(each))
            for each in system.equipment.values()
            if each.output is not None
        },
        "not_checked": list(NOT_CHECKED),
    }


def _inlets(study: Any) -> dict[str, InletEntry]:
    budgets = {name: study.shore(inlet) for name, inlet in study.system.shore.items()}
    return {name: _inlet(budget) for name, budget in budgets.items() if budget is not None}


def _inlet(budget: Any) -> InletEntry:
    inlet = budget.inlet
    values = (budget.may, budget.whole, budget.drawn, budget.left, budget.into, budget.time)
    return {
        "supply": inlet.supply,
        "voltage_V": inlet.voltage,
        "frequency_Hz": inlet.frequency,
        "may_A": finite(budget.may),
        "loads_A": {load.name: finite(current) for load, current in budget.loads},
        "chargers_A": {source.name: finite(current) for source, current in budget.chargers},
        "together_A": finite(budget.whole),
        "drawn_as_set_A": finite(budget.drawn),
        "input_limit_A": finite(budget.may),
        "left_for_charging_A": finite(budget.left),
        "into_bank_A": finite(budget.into),
        "time_s": finite(budget.time),
        "missing": list(unknowns(values)),
        "steps": steps_in(values),
    }


def _output(side: Any) -> OutputEntry:
    values = [v for v in (side.rated, side.surge, side.breaker, side.conductor) if v is not None]
    return {
        "rated_A": finite(side.rated),
        "surge_A": finite(side.surge),
        "breaker_A": finite(side.breaker),
        "conductor_A": finite(side.conductor),
        "missing": list(unknowns(values)),
    }
