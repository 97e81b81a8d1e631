"""Equipment must get the voltage it works at, through both legs of everything that feeds it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Derived,
    Judgement,
    Unknown,
    Value,
    compare,
    derive,
    given,
    rule,
    unproven,
)
from coordination.rules.kit.stated import written
from fusewright_fundamentals.joined import reach

CARD = Card(
    name="voltage-drop",
    title="Equipment gets enough voltage",
    why="What is lost in both legs, hot and worn, is missing at the equipment: a pump slows, a "
    "radio resets, an inverter cuts off early.",
    wrong="A length counted one way only; a nominal voltage where the battery is nearly empty.",
    right="A larger or shorter cable, or a higher system voltage. By custom 3 % of nominal for "
    "what must stay alive and 10 % for the rest, where the file states no drop_limit.",
    severity="outage",
    source=COMMON_PRACTICE,
    basis="practice",
)

#: Allowed drop as a share of nominal, by custom: for critical equipment and for the rest.
CRITICAL, OTHER = 0.03, 0.10


@rule(CARD, each="equipment")
def voltage_drop(equipment: Any, study: Any) -> Iterator[Judgement]:
    """Drop against its limit; then the voltage that arrives against the lowest that is enough.

    Equipment that no source reaches in this condition is not judged in it.
    """
    lost = study.drop(equipment)
    if isinstance(lost, Unknown) and not _fed(equipment, study):
        return
    yield _against_limit(_share(lost, study.island_nominal(equipment.name)), equipment)
    if equipment.min_voltage is not None:
        lowest = written(equipment, "min_voltage", "lowest voltage it works at", "V_min", "V")
        yield compare(study.load_voltage(equipment.name), at_least=lowest)


def _fed(equipment: Any, study: Any) -> bool:
    """Whether any source is connected in this condition; switched off, nothing is lost."""
    system = study.system
    sources = set(system.sources) | {f"{name}.output" for name in system.converters}
    met = reach(equipment.name, study, devices=True)
    return not sources.difference(study.condition.without).isdisjoint(met)


def _share(drop: Value, nominal: Value) -> Value:
    """ΔV / V_n"""
    if isinstance(drop, Unknown) or isinstance(nominal, Unknown):
        return derive(float, "relative voltage drop", "u", "", "", drop, nominal)
    formula = f"{drop.symbol} / {nominal.symbol}"
    return derive(lambda d, n: d / n, "relative voltage drop", "u", "", formula, drop, nominal)


def _against_limit(drop: Value, equipment: Any) -> Judgement:
    """An unstated `critical` decides only where the two customary limits differ."""
    if equipment.drop_limit is not None:
        limit = written(equipment, "drop_limit", "allowed drop", "u_max", "")
        return compare(drop, at_most=limit)
    if equipment.critical is not None or equipment.cranking:
        return compare(drop, at_most=_custom(CRITICAL if equipment.critical else OTHER))
    strict = compare(drop, at_most=_custom(CRITICAL))
    loose = compare(drop, at_most=_custom(OTHER))
    if strict.verdict == "fail" and loose.verdict == "pass":
        assert isinstance(drop, Derived)
        return unproven(f"{equipment.name}: critical (yes: at most 3 %, no: at most 10 %)")
    return strict if strict.verdict == "pass" else loose


def _custom(share: float) -> Derived:
    return given("allowed drop", "u_max", share, "", COMMON_PRACTICE, f"{share * 100:g} %")
