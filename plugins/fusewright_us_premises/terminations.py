"""Which temperature column the terminals at a cable's ends allow."""

from __future__ import annotations

from typing import Any

from coordination.rules import Installation, Unknown, Value
from coordination.rules.kit.joined import elements_at
from fusewright_us_premises.ampacity import at_termination
from fusewright_us_premises.editions import Edition
from fusewright_us_premises.options import stated

#: Up to this rating [A] unmarked terminals are for 60 °C, above for 75 °C (110.14(C)(1)).
SMALL_CIRCUIT = 100.0


def termination_limit(
    leg: Installation, cable: Any, circuit_rating: Value, study: Any, edition: Edition
) -> Value:
    """Ampacity [A] that the coolest terminal at either end of the cable allows."""
    if isinstance(circuit_rating, Unknown):
        return circuit_rating
    column = termination_column(cable, circuit_rating.value, study)
    if column is None:
        return Unknown("termination column", (f"{cable.name}: a terminal for 60 °C or more",))
    return at_termination(leg, edition, column)


def termination_column(cable: Any, circuit_rating: float, study: Any) -> int | None:
    """The column [°C] of the coolest terminal; None: a terminal stated for less than 60 °C.

    A stated terminal limit counts for that part alone; whatever states none counts as the option
    `terminals` says, and without that as an unmarked terminal of this circuit's rating.
    """
    unmarked = stated(study, "terminals")
    if unmarked is None:
        unmarked = 60.0 if circuit_rating <= SMALL_CIRCUIT else 75.0
    limits = [limit for end in (cable.start, cable.end) for limit in _limits(end, study)]
    coolest = min(unmarked if limit is None else limit for limit in limits)
    return max((each for each in (60, 75, 90) if each <= coolest), default=None)


def _limits(point: str, study: Any) -> list[float | None]:
    """Stated limits [°C] of what stands at a point; None for a terminal without one."""
    parts = [each.part for each in elements_at(point, study, drawn=True) if each.kind != "cable"]
    limits = [getattr(part, "terminal_limit", None) for part in parts]
    if not limits or _other_terminal(point, study):
        limits.append(None)
    return limits


def _other_terminal(point: str, study: Any) -> bool:
    """Whether a battery, bar, machine or converter has its terminal at this point."""
    system = study.system
    named = (system.sources, system.busbars, system.equipment)
    converter = point.rpartition(".")[0] in system.converters
    return converter or any(point in group for group in named)
