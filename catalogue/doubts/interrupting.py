"""Interrupt ratings that no device has: rising with voltage, or below the least of a standard."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Any, Final

from catalogue.doubts.doubt import Doubt, amps, volts
from catalogue.doubts.family import is_gg, table, ul_class
from catalogue.generic.tables import Row

#: The most that any class of UL 248 breaks [A].
_MOST: Final = 300_000.0
_MOST_SOURCE: Final = "UL 248-1:2017: up to 300 kA"
_FALLING: Final = "a device that breaks a current at a voltage breaks it at any lower one"
#: Shares of the least published current below which, and over which, a rating is doubted.
_UNDER, _OVER = 0.999, 100.0


def interrupt_doubts(part: Any) -> Iterator[Doubt]:
    """What is hard to believe of a part's interrupt ratings."""
    ratings = sorted(part.interrupt_ratings, key=lambda row: row.voltage)
    for low, high in pairwise(ratings):
        if high.current > low.current:
            found = f"{amps(high.current)} at {volts(high.voltage)} is more than"
            found = f"{found} {amps(low.current)} at {volts(low.voltage)}"
            expected = f"at most {amps(low.current)} at {volts(high.voltage)}"
            yield Doubt(part.id, "interrupt_ratings", found, expected, _FALLING)
    rated = getattr(part, "rated_voltage", None)
    if ratings and rated is not None and ratings[-1].voltage > rated * 1.001:
        found = f"it breaks at {volts(ratings[-1].voltage)}, above its rated voltage"
        source = "its own rated_voltage"
        yield Doubt(part.id, "interrupt_ratings", found, f"at most {volts(rated)}", source)
    yield from _sizes(part)


def _sizes(part: Any) -> Iterator[Doubt]:
    row = _least(part)
    for number, rating in enumerate(part.interrupt_ratings):
        path = f"interrupt_ratings.{number}.current"
        said = f"{amps(rating.current)} at {volts(rating.voltage)}"
        if rating.current > _MOST:
            yield Doubt(part.id, path, said, f"at most {amps(_MOST)}", _MOST_SOURCE)
        elif row is not None and rating.current < _UNDER * float(row["least_A"]):
            least = f"{amps(float(row['least_A']))} or more"
            yield Doubt(part.id, path, said, least, row["source"])
        elif row is not None and row["family"] in ("blade", "strip"):
            usual = float(row["least_A"])
            if rating.current >= 10 * usual:
                yield Doubt(part.id, path, said, f"about {amps(usual)}", row["source"])


def _least(part: Any) -> Row | None:
    """The row of the least breaking current for the part's family, else for its kind."""
    family = (getattr(part, "family", None) or "").strip().casefold()
    name = "class" if ul_class(part) else "gG" if is_gg(part) else family
    of = {row["family"]: row for row in table("breaking_minimums") if row["kind"] == part.kind}
    return of.get(name, of.get("any"))
