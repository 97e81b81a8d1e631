"""What differs between the editions of the standards that this pack carries.

ISO 10133:2012 was read in part; of ISO 13297:2020, which replaced it, other parts. What was read
in the older one alone is taken to be carried into the newer one, and marked as not read there.
"""

from __future__ import annotations

from dataclasses import dataclass

from coordination.rules import Source


@dataclass(frozen=True, slots=True)
class Edition:
    """One edition: its name, its document, and the date from which it is taken to hold."""

    year: str
    document: str
    in_force: str

    def carried(self, clause: str, *, read: bool) -> Source:
        """A clause of ISO 10133:2012; `read` there. In a newer edition it is taken as carried."""
        if self.year == "2012":
            return Source(self.document, clause, read=read)
        return Source(self.document, f"as ISO 10133:2012, {clause}", read=False)

    def own(self, *, y2012: str, y2020: str, read_in: tuple[str, ...] = ()) -> Source:
        """A clause whose number is known in both editions; read_in -- years in which it was."""
        clause = y2012 if self.year == "2012" else y2020
        return Source(self.document, clause, read=self.year in read_in)


Y2012 = Edition("2012", "ISO 10133:2012", "2012-01-01")
Y2020 = Edition("2020", "ISO 13297:2020+A1:2022", "2020-12-01")

#: Oldest first.
EDITIONS = (Y2012, Y2020)


def edition_of(year: str) -> Edition:
    """The edition of that name. Raises StopIteration for one that the pack does not carry."""
    return next(each for each in EDITIONS if each.year == year)
