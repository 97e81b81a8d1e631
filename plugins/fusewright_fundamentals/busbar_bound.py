"""The largest lasting current that can meet on a busbar, by the protection of its branches."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import product

from coordination.rules import Derived, Unknown, Value, derive
from fusewright_fundamentals.busbar_branches import Branch
from fusewright_fundamentals.overload_bound import smallest

#: Up to so many branches that may both give and take, every combination of them is tried.
MOST_COMBINED = 10

Split = tuple[tuple[Branch, ...], tuple[Branch, ...]]


def largest_through(branches: Sequence[Branch], *, in_order: bool) -> Value | None:
    """Largest current [A] along the bar that protection allows; None: nothing limits it.

    min(what the givers let in, what the takers let out), the largest over who gives and who takes

    Without an order every choice of givers and takers counts; with it, only what lies on either
    side of one section. Source: definition (current law at the bar).
    """
    missing = _missing(branches)
    if missing:
        return Unknown("current that protection allows", missing)
    splits = list(_sections(branches) if in_order else _choices(branches))
    givers, takers = max(splits, key=_through, default=((), ()))
    if math.isinf(_through((givers, takers))):
        return None
    return _derived(givers, takers)


def _missing(branches: Sequence[Branch]) -> tuple[str, ...]:
    limits = [limit for branch in branches for limit in (branch.inward, branch.outward)]
    found = [text for limit in limits if isinstance(limit, Unknown) for text in limit.missing]
    return tuple(dict.fromkeys(found))


def _choices(branches: Sequence[Branch]) -> Iterator[Split]:
    """Every way to share out the branches that may give and take; all on both sides if too many."""
    giving = tuple(b for b in branches if b.gives and not b.takes)
    taking = tuple(b for b in branches if b.takes and not b.gives)
    both = tuple(b for b in branches if b.gives and b.takes)
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
            yield tuple(b for b in near if b.gives), tuple(b for b in far if b.takes)


def _through(split: Split) -> float:
    givers, takers = split
    return min(_sum(b.inward for b in givers), _sum(b.outward for b in takers))


def _sum(limits: Iterator[Value | None]) -> float:
    total = 0.0
    for limit in limits:
        total += math.inf if limit is None or isinstance(limit, Unknown) else limit.value
    return total


def _derived(givers: Sequence[Branch], takers: Sequence[Branch]) -> Value:
    """The finite sides of a split, as steps that can be checked by hand."""
    sides = [
        _side("what may come in", "C", [branch.inward for branch in givers]),
        _side("what may leave", "L", [branch.outward for branch in takers]),
    ]
    return smallest("current that protection allows", "I_b", [side for side in sides if side])


def _side(quantity: str, symbol: str, limits: Sequence[Value | None]) -> Value | None:
    """Sum of the limits on one side; None where one of them is not there."""
    known = [limit for limit in limits if isinstance(limit, Derived)]
    if len(known) < len(limits):
        return None
    formula = " + ".join(limit.symbol for limit in known) or "0"
    return derive(_add, quantity, symbol, "A", formula, *known)


def _add(*values: float) -> float:
    return sum(values)
