"""Banks: batteries that are joined in one condition, and the charge that may be used of them."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING, NamedTuple

from coordination.model import Source
from coordination.network.stated import of_file, of_part
from coordination.physics import energy
from coordination.study.budget.range import Range, numbered, total
from coordination.study.deferred import renamed
from coordination.study.subjects import ambient
from coordination.trace import DEFINITION, Derived, Unknown, Value, reckon

if TYPE_CHECKING:
    from catalogue.parts import Battery
    from coordination.study.study import Study


class Bank(NamedTuple):
    """Batteries joined over closed elements; `island` is the piece of the network they feed."""

    sources: tuple[Source, ...]
    island: int

    @property
    def name(self) -> str:
        """Their names: "port pack + starboard pack"."""
        return " + ".join(source.name for source in self.sources)

    @property
    def parts(self) -> tuple[Battery, ...]:
        """What each is made of."""
        return tuple(source.part for source in self.sources if source.part is not None)


def banks(study: Study) -> tuple[Bank, ...]:
    """Every bank of this condition, in the file's order."""
    island = study._figures.shape.island
    found: dict[int, list[Source]] = {}
    for feed in study.network.feeds:
        found.setdefault(island[feed.point], []).append(feed.source)
    return tuple(Bank(tuple(sources), piece) for piece, sources in found.items())


def nominal_voltage(bank: Bank) -> Value:
    """The mean voltage [V] of a bank: the nominal one of its batteries, if they agree."""
    stated = [
        of_part(part, "nominal_voltage", part.nominal_voltage, "nominal voltage", "U_n", "V")
        for part in bank.parts
    ]
    known = [value for value in stated if isinstance(value, Derived)]
    if len(known) < len(stated):
        return next(value for value in stated if isinstance(value, Unknown))
    if len({value.value for value in known}) > 1:
        return Unknown("nominal voltage", (f"{bank.name}: one nominal_voltage for all of them",))
    return known[0]


def usable(bank: Bank) -> Range:
    """Charge [A·s] that may be used of a bank: at its rating, at least and at most."""
    if doubt := _unlike(bank):
        unknown = Unknown(f"usable charge of {bank.name}", (doubt,))
        return Range(unknown, unknown, unknown)
    each = [_usable(source, source.part) for source in bank.sources if source.part is not None]
    words = f"usable charge of {bank.name}"
    sums = [
        total(numbered([getattr(one, which) for one in each], "Q"), f"{words}{more}", "Q", "A·s")
        for which, more in (("least", ", at least"), ("nominal", ""), ("most", ", at most"))
    ]
    return Range(*sums)


def usable_energy(bank: Bank) -> Value:
    """Energy [J] that may be used of a bank, at its rating and nominal voltage."""
    return reckon(
        energy.charge_energy, f"usable energy of {bank.name}", "W", "J", "Q × U_n",
        usable(bank).nominal, nominal_voltage(bank), source=DEFINITION,
    )  # fmt: skip


def _unlike(bank: Bank) -> str:
    """Why the charges of its batteries cannot be added; empty if they can."""
    kinds = {part.chemistry for part in bank.parts}
    if len(kinds) > 1 and len(bank.sources) > 1:
        return f"{bank.name}: how batteries of different chemistry share is not computed"
    return ""


def _usable(source: Source, part: Battery) -> Range:
    words = f"usable charge of {source.name}"
    capacity = of_part(part, "capacity", part.capacity, f"capacity of {source.name}", "C", "A·s")
    depth = depth_of(source)
    nominal = reckon(
        lambda c, d: energy.usable_charge(c, d, 1.0), words, "Q", "A·s", "C × d",
        capacity, depth, source=DEFINITION,
    )  # fmt: skip
    tolerance = of_part(
        part, "capacity_tolerance", part.capacity_tolerance, "tolerance of the capacity", "t", ""
    )
    ends = [
        reckon(
            partial(_between, sign), f"{words}, {word}", "Q", "A·s",
            f"C × d × (1 {'−' if sign < 0 else '+'} t) × f",
            capacity, depth, tolerance, _factor(source, part, cold=sign < 0), source=DEFINITION,
        )
        for sign, word in ((-1, "at least"), (1, "at most"))
    ]  # fmt: skip
    return Range(ends[0], nominal, ends[1])


def _between(sign: int, capacity: float, depth: float, tolerance: float, factor: float) -> float:
    return energy.usable_charge(capacity, depth, (1.0 + sign * tolerance) * factor)


def depth_of(source: Source) -> Value:
    """Share [1] of its capacity that may be used: as the part and the file say, the smaller."""
    part, words = source.part, f"share of {source.name} that may be used"
    stated: list[Value] = []
    if source.usable_depth is not None:
        stated.append(of_file(source, "usable_depth", source.usable_depth, words, "d", ""))
    if part is not None and part.usable_depth is not None:
        stated.append(of_part(part, "usable_depth", part.usable_depth, words, "d", ""))
    known = [value for value in stated if isinstance(value, Derived)]
    if not known:
        return Unknown(words, (f"{source.name}: usable_depth",))
    return min(known, key=lambda value: value.value)


def _factor(source: Source, part: Battery, *, cold: bool) -> Value:
    """Share [1] of the capacity at the lowest or the highest temperature of its place.

    Between two rows the one that bounds it counts: the colder for the least, the warmer for most.
    """
    words = f"capacity of {source.name} at its {'lowest' if cold else 'highest'} temperature"
    if not part.capacity_factors:
        return Unknown(words, (f"{part.id}: capacity_factors",))
    at = lowest(source) if cold else ambient(source)
    if isinstance(at, Unknown):
        return Unknown(words, at.missing)
    rows = list(enumerate(part.capacity_factors))
    below = [row for row in rows if row[1][0] <= at.value]
    above = [row for row in rows if row[1][0] >= at.value]
    chosen = below[-1] if cold and below else None if cold else (above or rows[-1:])[0]
    if chosen is None:
        return Unknown(words, (f"{part.id}: capacity_factors at {at.value:g} °C or below",))
    number, (_, factor) = chosen
    row = of_part(part, f"capacity_factors.{number}.factor", factor, words, "f", "")
    if isinstance(row, Unknown):
        return row
    return Derived(
        words, "f", factor, "", "f_row at T", (renamed(row, "f_row"), renamed(at, "T")), DEFINITION
    )


def lowest(source: Source) -> Value:
    """Lowest temperature [°C] of the place of a source."""
    place = source.place
    words = f"lowest temperature of {place.name}"
    if place.coldest is None:
        asked = f"{source.name}: place" if not place.line else f"{place.name}: coldest"
        return Unknown(words, (asked,))
    return of_file(place, "coldest", place.coldest, words, "T", "°C")
