"""The rating of a device at the voltage that stands on it: never a row for less voltage."""

from __future__ import annotations

from typing import Any

from coordination.report.wording import number
from coordination.rules.judgement import ROUNDING
from coordination.schedules.facts import EMPTY, Facts
from coordination.trace import Derived, Unknown


def rating_at(part: Any, voltage: float) -> int | None:
    """Which row of a part's interrupt ratings holds at a voltage [V]; None: none does.

    The lowest listed voltage that covers it, and there the least current; never interpolated.
    """
    rows = list(enumerate(getattr(part, "interrupt_ratings", ())))
    covering = [row for row in rows if voltage <= row[1].voltage * (1 + ROUNDING)]
    if not covering:
        return None
    return min(covering, key=lambda row: (row[1].voltage, row[1].current))[0]


def interrupts(facts: Facts, element: Any) -> str:
    """ "5 kA at 32 V"; "none at 56.8 V" where every row is for less; empty if not known."""
    part, voltage = element.part, facts.most(lambda study: study.voltage_max(element))
    if not getattr(part, "interrupt_ratings", ()) or not isinstance(voltage, Derived):
        return EMPTY
    place = rating_at(part, voltage.value)
    if place is None:
        return f"none at {number(voltage.value, 'V', voltage.written)}"
    row = part.interrupt_ratings[place]
    said = f"interrupt_ratings.{place}"
    current = number(row.current, "A", part.written.get(f"{said}.current", ""))
    return f"{current} at {number(row.voltage, 'V', part.written.get(f'{said}.voltage', ''))}"


def margin(facts: Facts, element: Any) -> str:
    """The least of all conditions of rating / largest fault current; empty if one is unknown."""
    least: float | None = None
    for study in facts.studies:
        duty, voltage = study.duty(element), study.voltage_max(element)
        if isinstance(duty, Unknown) or isinstance(voltage, Unknown):
            return EMPTY
        if duty.value <= 0:
            continue
        place = rating_at(element.part, voltage.value)
        if place is None:
            return EMPTY
        here = element.part.interrupt_ratings[place].current / duty.value
        least = here if least is None else min(least, here)
    return EMPTY if least is None else ratio(least)


def ratio(value: float) -> str:
    """A margin; one below 1 is never rounded up to it."""
    for digits in (3, 4, 6, 9):
        text = f"{value:.{digits}g}"
        if float(text) != 1 or value == 1:
            break
    return text
