"""The largest lasting current that can meet on a busbar, by the protection of its branches."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product

from coordination.rules import Derived, Source, Unknown, Value, derive, given
from fusewright_fundamentals.busbar_branches import Branch
from fusewright_fundamentals.overload_bound import smallest

#: Up to so many branches that may both give and take, every combination of them is tried.
MOST_COMBINED = 10

Branches = tuple[Branch, ...]
Split = tuple[Branches, Branches]


def largest_through(branches: Sequence[Branch], *, in_order: bool) -> Value | None:
    """Largest current [A] along the bar that protection allows; None: nothing limits it.

    min(what the givers let in, what consumers let out and batteries take in charge), the largest
    over who gives and who takes

    Without an order every choice of givers and takers counts; with it, only what lies on either
    side of one section. Source: definition (current law at the bar).
    """
    missing = _missing(branches)
    if missing:
        return Unknown("current that protection allows", missing)
    splits = _sections(branches) if in_order else _choices(branches)
    worst = max(splits, key=_through, default=((), ()))
    return None if math.isinf(_through(worst)) else _derived(*worst)


def _missing(branches: Sequence[Branch]) -> tuple[str, ...]:
    limits = [limit for branch in branches for limit in (branch.inward, branch.outward)]
    found = [text for limit in limits if isinstance(limit, Unknown) for text in limit.missing]
    return tuple(dict.fromkeys(found))


def _choices(branches: Sequence[Branch]) -> Iterator[Split]:
    """Every way to share out the branches that may give and take; all on both sides if too many."""
    giving = tuple(b for b in branches if b.gives and not _takes(b))
    taking = tuple(b for b in branches if _takes(b) and not b.gives)
    both = tuple(b for b in branches if b.gives and _takes(b))
    if len(both) > MOST_COMBINED:
        yield giving + both, taking + both
        return
    for gives in product((True, False), repeat=len(both)):
        givers = tuple(b for b, give in zip(both, gives, strict=True) if give)
        takers = tuple(b for b, give in zip(both, gives, strict=True) if not give)
        yield giving + givers, taking + takers


def _sections(branches: Sequence[Branch]) -> Iterator[Split]:
    for cut in range(1, len(branches)):
        left, right = branches[:cut], branches[cut:]
        for near, far in ((left, right), (right, left)):
            yield tuple(b for b in near if b.gives), tuple(b for b in far if _takes(b))


def _takes(branch: Branch) -> bool:
    return branch.draws or branch.stores


def _through(split: Split) -> float:
    givers, takers = split
    drawn = _sum([b.outward for b in takers if b.draws])
    stored = _sum([b.outward for b in takers if b.stores])
    charge = sum(b.charge for b in givers)
    return min(_sum([b.inward for b in givers]), drawn + min(charge, stored))


def _sum(limits: Sequence[Value | None]) -> float:
    total = 0.0
    for limit in limits:
        total += limit.value if isinstance(limit, Derived) else math.inf
    return total


def _derived(givers: Branches, takers: Branches) -> Value:
    """The finite sides of a split, as steps that can be checked by hand."""
    coming = _side("what may come in", "C", [branch.inward for branch in givers])
    sides = [side for side in (coming, _leaving(givers, takers)) if side is not None]
    return smallest("current that protection allows", "I_b", sides)


def _leaving(givers: Branches, takers: Branches) -> Value | None:
    """What consumers may draw and batteries take in charge; None where nothing limits it."""
    drawn = _side("what consumers may draw", "L", [b.outward for b in takers if b.draws])
    charge = sum(branch.charge for branch in givers)
    stores = [branch.outward for branch in takers if branch.stores]
    if drawn is None or not charge or not stores:
        return drawn
    source = Source("system file", "limits of the self-limiting sources")
    limit = given("what charges", "S", charge, "A", source)
    room = _side("what batteries let in", "B", stores)
    stored = limit if room is None else smallest("charging current", "S_b", [limit, room])
    symbol = "" if isinstance(stored, Unknown) else stored.symbol
    return derive(_add, "what may leave", "L_b", "A", f"L + {symbol}", drawn, stored)


def _side(quantity: str, symbol: str, limits: Sequence[Value | None]) -> Value | None:
    """Sum of the limits on one side; None where one of them is not there."""
    known = [limit for limit in limits if isinstance(limit, Derived)]
    if len(known) < len(limits):
        return None
    formula = " + ".join(limit.symbol for limit in known) or "0"
    return derive(_add, quantity, symbol, "A", formula, *known)


def _add(*values: float) -> float:
    return sum(values)
