"""What a bank's loads draw in one condition: on average by their duty, and all at once."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coordination.model import Converter, Equipment
from coordination.network import Draw
from coordination.network.stated import of_file
from coordination.network.supply import equipment_current
from coordination.physics import energy, loads, sources
from coordination.study.budget.bank import Bank, nominal_voltage
from coordination.study.budget.range import Range, numbered, total
from coordination.trace import COMMON_PRACTICE, DEFINITION, Derived, Unknown, Value, reckon

if TYPE_CHECKING:
    from coordination.study.study import Study


class Load(NamedTuple):
    """One load of a bank.

    running -- current while it runs, at the bank's nominal voltage [A]
    share   -- of it that is drawn in this condition [1]; duty -- share of the time [1]
    average -- on average [A]: with a nearly empty bank at least (`most`), nominal, by `least_duty`
    at_once -- design current in this condition [A], at its lowest voltage
    """

    subject: Equipment | Converter
    running: Value
    share: Value
    duty: Value
    average: Range
    at_once: Value


def loads_of(bank: Bank, study: Study) -> tuple[Load, ...]:
    """Every load of a bank that runs longer than an engine's starter does, in the file's order."""
    island = study._figures.shape.island
    return tuple(
        _load(draw, bank, study)
        for draw in study.network.draws
        if island[draw.point] == bank.island
        and not (isinstance(draw.subject, Equipment) and draw.subject.cranking)
    )


def average(loads: tuple[Load, ...], bank: Bank) -> Range:
    """Current [A] of all loads together on average: the least, nominal and the most."""
    words = f"average current of {bank.name}"
    return Range(*(
        total(numbered([getattr(load.average, which) for load in loads], "I"), f"{words}{more}",
              "I", "A")
        for which, more in (("least", ", least"), ("nominal", ""), ("most", ", largest"))
    ))  # fmt: skip


def at_once(loads: tuple[Load, ...], bank: Bank) -> Value:
    """Current [A] of all loads running at the same time, each at its lowest voltage."""
    words = f"current of {bank.name}, everything at once"
    return total(numbered([load.at_once for load in loads], "I"), words, "I", "A")


def _load(draw: Draw, bank: Bank, study: Study) -> Load:
    subject = draw.subject
    share = _share(subject, study)
    if isinstance(subject, Converter):
        all_the_time = _stated_or_all(subject, "duty", None)
        known = isinstance(share, Derived) and share.value
        full = draw.current if not known else _without_share(draw.current, share)
        return Load(subject, full, share, all_the_time, _alike(draw.current), draw.current)
    duty = _stated_or_all(subject, "duty", subject.duty)
    least = duty
    if subject.least_duty is not None:
        least = of_file(subject, "least_duty", subject.least_duty, "least share of the time",
                        "d", "")  # fmt: skip
    running, worst = _running(subject, bank), equipment_current(subject)
    averages = [
        _average(subject, current, share, part)
        for current, part in ((running, least), (running, duty), (worst, duty))
    ]
    return Load(subject, running, share, duty, Range(*averages), draw.current)


def _alike(value: Value) -> Range:
    return Range(value, value, value)


def _without_share(current: Value, share: Value) -> Value:
    if isinstance(current, Unknown) or isinstance(share, Unknown):
        return current
    return current if share.value == 1.0 or not current.inputs else current.inputs[0]


def _share(subject: Equipment | Converter, study: Study) -> Value:
    stated = study.condition.draw.get(subject.name)
    words = f"share of its current that {subject.name} draws"
    if stated is None:
        return Derived(words, "s", 1.0, "", source=DEFINITION)
    return of_file(study.condition, f"draw.{subject.name}", stated, words, "s", "")


def _stated_or_all(subject: Equipment | Converter, field: str, value: float | None) -> Value:
    words = f"share of the time in which {subject.name} runs"
    if value is None:
        return Derived(f"{words}, not stated: all of it", "d", 1.0, "", source=COMMON_PRACTICE)
    return of_file(subject, field, value, words, "d", "")


def _running(equipment: Equipment, bank: Bank) -> Value:
    """Current [A] while it runs: as stated, or of its power at the bank's nominal voltage."""
    if equipment.power is None:
        return equipment_current(equipment)
    words = f"current of {equipment.name} at nominal voltage"
    return reckon(
        loads.equipment_current, words, "I", "A", "P / η / U_n",
        of_file(equipment, "power", equipment.power, f"power of {equipment.name}", "P", "W"),
        of_file(equipment, "efficiency", equipment.efficiency, "efficiency", "η", ""),
        nominal_voltage(bank), source=sources.CONSERVATION,
    )  # fmt: skip


def _average(equipment: Equipment, current: Value, share: Value, duty: Value) -> Value:
    words = f"average current of {equipment.name}"
    if isinstance(share, Derived) and share.value == 0.0:
        return Derived(f"{words}: it is off", "I", 0.0, "A", source=share.source)
    return reckon(
        energy.average_current, words, "I", "A", "I_r × s × d",
        current if isinstance(current, Unknown) else current.renamed("I_r"), share, duty,
        source=DEFINITION,
    )  # fmt: skip
