"""What may be changed in a system, one change at a time; nothing is judged or written here."""

from __future__ import annotations

from catalogue.frozen import dataclass, field
from catalogue.parts import Part

#: Sorts of change in the order in which they are preferred: another part at the same place first,
#: then a device added or moved, then a cable, then a length.
SORTS = ("part", "device", "moved", "distance", "return", "cable", "length")
_WEIGHT = {"part": 0, "device": 1, "moved": 1, "distance": 1, "return": 2, "cable": 3, "length": 4}


@dataclass(frozen=True, slots=True)
class Change:
    """One change of one thing.

    sort    -- one of SORTS
    subject -- the element or busbar that is changed; of an added device, the circuit
    part_id -- id of the part that is put in; "" where none is
    index   -- place among the circuit's parts as the file has them, counted from 0, before which
               a device is added or to which it is moved
    value   -- new length or distance [m]
    text    -- the same as it is written in the file
    part    -- the part of that id
    name    -- of an added device; place -- the place it states, "" for its circuit's
    was     -- what stood there before, for words: a part's id or a length
    size    -- how far it goes from what stood there, to rank equal numbers of changes [1]
    """

    sort: str
    subject: str
    part_id: str = ""
    index: int = 0
    value: float = 0.0
    text: str = field(default="", compare=False)
    part: Part | None = field(default=None, compare=False)
    name: str = field(default="", compare=False)
    place: str = field(default="", compare=False)
    was: str = field(default="", compare=False)
    size: float = field(default=0.0, compare=False)

    @property
    def slot(self) -> tuple[str, str, int]:
        """What it settles: of two changes with one slot, only one can be made."""
        if self.sort == "device":
            return "device", self.subject, self.index
        kind = {"return": "cable", "moved": "distance"}.get(self.sort, self.sort)
        return kind, self.subject, 0

    @property
    def weight(self) -> int:
        """Its place in the order of preference; less is preferred."""
        return _WEIGHT[self.sort]


Changes = frozenset[Change]


def in_order(changes: Changes) -> tuple[Change, ...]:
    """The changes in an order that is the same in every run."""
    return tuple(sorted(changes, key=_order))


def _order(change: Change) -> tuple[str, int, str, str, float]:
    return change.subject, change.index, change.sort, change.part_id, change.value


def rank(changes: Changes) -> tuple[int, tuple[int, ...], int, float, tuple[object, ...]]:
    """Fewest changes first, then the preferred sorts, own and shop parts, then the smallest."""
    weights = tuple(sorted((change.weight for change in changes), reverse=True))
    generic = sum(1 for each in changes if each.part is not None and each.part.origin == "generic")
    size = round(sum(change.size for change in changes), 9)
    return len(changes), weights, generic, size, tuple(map(_order, in_order(changes)))
