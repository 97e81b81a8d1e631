"""The next standard rating above a conductor's ampacity, where the code allows it."""

from __future__ import annotations

from coordination.rules import ROUNDING, Derived, derive, given
from fusewright_us_premises import tables
from fusewright_us_premises.editions import Edition

#: Largest device [A] that the next-size rule covers (240.4(B); from memory).
LARGEST = 800.0


def next_standard(ampacity: Derived, edition: Edition) -> Derived | None:
    """The smallest standard rating [A] not below an ampacity; None above 800 A (240.4(B), (C))."""
    found = next(
        (each for each in tables.standard_ratings() if each >= ampacity.value * (1 - ROUNDING)),
        None,
    )
    if found is None or found > LARGEST:
        return None
    source = edition.table("240.6(A)", read=False)
    listed = given("standard rating", "I_std", found, "A", source)
    result = derive(
        lambda i, _z: i, "next standard rating", "I_next", "A",
        f"I_std ≥ {ampacity.symbol}", listed, ampacity, source=edition.source("240.4(B)"),
    )  # fmt: skip
    assert isinstance(result, Derived)
    return result
