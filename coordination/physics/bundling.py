"""What bundling and parallel runs leave of a pair's ampacity.

Counts pairs (a circuit's two conductors) that lie together, all taken as fully loaded.
"""

from __future__ import annotations

from coordination.physics.guards import require_count, require_not_negative, require_within

#: Pairs up to which published bundle factors go; above it heat conduction alone is assumed.
LARGEST_PUBLISHED = 20.0


def bundled_pairs(bundle: float, runs: float) -> float:
    """Pairs of conductors that lie together: every circuit of the bundle with as many runs.

    b n

    bundle -- circuits bundled, this one included b [1]
    runs   -- equal cables in parallel n, taken to lie together [1]
    gives  -- pairs N [1]
    Raises OutOfRange if a value is no whole number from 1.
    Holds as an upper bound: other circuits of the bundle may have fewer runs.
    Source: common practice.

    >>> bundled_pairs(3, 2)                      # hand calculation
    6
    """
    require_count(bundle=bundle, runs=runs)
    return bundle * runs


def bundle_factor(pairs: float) -> float:
    """Share of its ampacity that each of several equally loaded pairs keeps in a bundle.

    N^(-1/3) up to 20 pairs, 20^(-1/3) sqrt(20 / N) above

    The heat of N pairs leaves by a surface that grows with sqrt(N): with the film alone the share
    would fall as N^(-1/4); with conduction from the middle alone, as N^(-1/2). The exponent 1/3
    lies between and never above a published factor; past the last of them the steeper law goes on.

    pairs -- loaded pairs in the bundle N [1]
    gives -- factor [1]
    Raises OutOfRange if pairs is no whole number from 1.
    Holds for bundles in air or on a surface; 1 to 4 % below IEC 60364-5-52 Table B.52.17, row 1.
    Source: common practice: a bound on IEC 60364-5-52:2009, Table B.52.17.

    >>> round(bundle_factor(8), 3)               # hand calculation: 8^(-1/3); the table has 0.52
    0.5
    """
    require_count(pairs=pairs)
    if pairs <= LARGEST_PUBLISHED:
        return float(pairs ** (-1.0 / 3.0))
    return float(LARGEST_PUBLISHED ** (-1.0 / 3.0) * (LARGEST_PUBLISHED / pairs) ** 0.5)


def installed_ampacity(single: float, factor: float, runs: float) -> float:
    """Continuous current of one leg as installed: all its runs together.

    n k I

    single -- of one pair alone in this ambient I [A]
    factor -- for the bundle k [1]
    runs   -- equal cables in parallel n [1]
    gives  -- current [A]
    Raises OutOfRange if single is negative, factor outside 0 ... 1, runs no whole number from 1.
    Holds for runs of equal length and terminations: they share the current evenly.
    Source: Kirchhoff's laws.

    >>> installed_ampacity(100.0, 0.75, 2)       # hand calculation
    150.0
    """
    require_not_negative(single=single)
    require_within(0.0, 1.0, factor=factor)
    require_count(runs=runs)
    return runs * factor * single
