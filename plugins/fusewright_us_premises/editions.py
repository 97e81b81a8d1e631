"""What differs between the editions of the code that this pack carries.

Tables of conductors are those of 2023, where they were read; the older editions are taken to hold
the same figures under other numbers, from memory.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from coordination.rules import Source


@dataclass(frozen=True, slots=True)
class Edition:
    """One edition.

    year      -- its name; `in_force` -- the date it is taken to hold from, where adopted
    raceway, free_air, ambient, adjustment -- what its tables of conductors are called
    battery_volts      -- a stationary battery above this voltage needs a disconnect [V]
    battery_disconnect, battery_marking, prime_mover -- clauses of article 480
    storage_disconnect -- clause of article 706; empty: the edition has no such article
    storage_energy     -- article 706 begins above this energy [J]; 0: at any
    """

    year: str
    in_force: str
    raceway: str
    free_air: str
    ambient: str
    adjustment: str
    battery_volts: float
    battery_disconnect: str
    battery_marking: str
    prime_mover: str
    storage_disconnect: str
    storage_energy: float

    def source(self, clause: str, *read_in: str) -> Source:
        """A clause of this edition; read_in -- years of the editions in which it was read."""
        return Source(f"NFPA 70:{self.year}", clause, read=self.year in read_in)

    def table(self, clause: str, *, read: bool = True) -> Source:
        """A table whose 2023 figures are used; read -- whether they were read there."""
        return Source(f"NFPA 70:{self.year}", f"Table {clause}", read=read and self.year == "2023")


Y2014 = Edition(
    year="2014",
    in_force="2014-01-01",
    raceway="310.15(B)(16)",
    free_air="310.15(B)(17)",
    ambient="310.15(B)(2)(a)",
    adjustment="310.15(B)(3)(a)",
    battery_volts=50.0,
    battery_disconnect="480.6(A)",
    battery_marking="480.6(D)",
    prime_mover="480.5",
    storage_disconnect="",
    storage_energy=0.0,
)
Y2017 = replace(
    Y2014,
    year="2017",
    in_force="2017-01-01",
    battery_volts=60.0,
    battery_disconnect="480.7(A)",
    battery_marking="480.7(D)",
    prime_mover="480.6",
    storage_disconnect="706.7",
)
Y2020 = replace(
    Y2017,
    year="2020",
    in_force="2020-01-01",
    raceway="310.16",
    free_air="310.17",
    ambient="310.15(B)(1)",
    adjustment="310.15(C)(1)",
    storage_disconnect="706.15",
    storage_energy=3.6e6,
)
Y2023 = replace(Y2020, year="2023", in_force="2023-01-01", ambient="310.15(B)(1)(1)")

#: Oldest first.
EDITIONS = (Y2014, Y2017, Y2020, Y2023)


def named(year: str) -> Edition:
    """The edition of that name. Raises StopIteration if there is none."""
    return next(edition for edition in EDITIONS if edition.year == year)
