"""A device must break the fault current that its place can deliver, at its circuit's voltage.

Other than physics, the code asks for the rating at nominal voltage.
"""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    ROUNDING,
    Card,
    Derived,
    Judgement,
    Rule,
    Source,
    Unknown,
    Value,
    capped,
    compare,
    derive,
    given,
    rule,
)
from fusewright_us_premises.editions import Y2023, Edition, dated

CARD = Card(
    name="interrupting-rating",
    title="The device can break the available fault current",
    why="110.9: equipment meant to break fault current has an interrupting rating, at nominal "
    "circuit voltage, of at least the current available at its line terminals.",
    wrong="A breaker marked 5 kA at 48 V on a lithium bank that delivers 9 kA.",
    right="A device marked for at least the available current at this voltage or above.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source("110.9"),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""

    @rule(dated(CARD, edition.source("110.9")), each="device")
    def interrupting_rating(device: Any, study: Any) -> Judgement:
        """Largest current that can arrive at either terminal against the rating.

        The row of the lowest listed voltage that covers the nominal one; never interpolated.
        """
        nominal = study.sources_nominal(device.start)
        return capped(compare(study.duty(device), at_most=_rating(device.part, nominal)))

    return interrupting_rating


def _rating(part: Any, nominal: Value) -> Value:
    if isinstance(nominal, Unknown):
        return Unknown("interrupting rating", nominal.missing, nominal.known)
    rows = [
        (row.voltage, row.current, place)
        for place, row in enumerate(part.interrupt_ratings)
        if nominal.value <= row.voltage * (1 + ROUNDING)
    ]
    if not rows:
        missing = f"{part.id}: interrupt_ratings at >= {nominal.value:g} V"
        return Unknown("interrupting rating", (missing,), (nominal,))
    voltage, current, place = min(rows)
    return derive(
        lambda i, _u, _n: i, "interrupting rating", "I_r", "A",
        f"I_listed at U_listed ≥ {nominal.symbol}",
        _stated(part, place, "current", current, "listed interrupting rating", "I_listed", "A"),
        _stated(part, place, "voltage", voltage, "voltage it is listed at", "U_listed", "V"),
        nominal,
    )  # fmt: skip


def _stated(
    part: Any, place: int, field: str, value: float, quantity: str, symbol: str, unit: str
) -> Derived:
    path = f"interrupt_ratings.{place}.{field}"
    source = Source("part data", f"{part.id}: {path}")
    return given(quantity, symbol, value, unit, source, part.written.get(path, ""))
