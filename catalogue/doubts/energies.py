"""Melting and clearing energies against each other and against the table of the family."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from catalogue.doubts.doubt import Doubt
from catalogue.doubts.family import is_gg, table, ul_class
from catalogue.quantities import show

#: Times the largest, or share of the least, published energy that is doubted.
_TIMES: Final = 5.0


def energy_doubts(part: Any) -> Iterator[Doubt]:
    """I²t that cannot be: melting above clearing, or far from what the family has."""
    melting, clearing = part.melting_i2t, part.clearing_i2t
    if melting is not None and clearing is not None and melting > clearing:
        found = f"{_energy(melting)} is above clearing_i2t, {_energy(clearing)}"
        expected = f"at most {_energy(clearing)}"
        yield Doubt(part.id, "melting_i2t", found, expected, "it melts before it has cleared")
    if part.rated_current is None:
        return
    for path, value in (("melting_i2t", melting), ("clearing_i2t", clearing)):
        bounds = _published(part, path)
        if value is not None and bounds is not None:
            low, high, source = bounds
            if value > _TIMES * high or (low and value < low / _TIMES):
                between = f"{_energy(low)} to {_energy(high)}" if low else f"up to {_energy(high)}"
                yield Doubt(part.id, path, _energy(value), between, source)


def _energy(value: float) -> str:
    return show(value, "A²s")


def _published(part: Any, path: str) -> tuple[float, float, str] | None:
    """Least and largest published energy [A²s] for family and rating, and the source."""
    rating = part.rated_current
    if is_gg(part):
        for row in table("gg_energies"):
            if float(row["rating_A"]) == rating:
                columns = ("prearcing_min_4ms_A2s", "prearcing_min_10ms_A2s")
                least = [float(row[column]) for column in columns if row[column]]
                return min(least, default=0.0), float(row["operating_max_A2s"]), row["source"]
    name = ul_class(part)
    if not name or path != "clearing_i2t":
        return None
    found = [row for row in table("ul248_letthrough")
             if row["class"] == name and float(row["case_A"]) >= rating]  # fmt: skip
    if not found:
        return None
    case = min(float(row["case_A"]) for row in found)
    largest = max(
        (row for row in found if float(row["case_A"]) == case),
        key=lambda row: float(row["clearing_i2t_max_A2s"]),
    )
    return 0.0, float(largest["clearing_i2t_max_A2s"]), largest["source"]
