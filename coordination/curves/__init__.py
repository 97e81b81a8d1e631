"""Time-current behaviour: when a device opens at the earliest, when it has cleared at the latest.

Knows the boundaries that parts state and what physics adds to them; leaves currents, circuits and
verdicts to others.
"""

from coordination.curves.boundary import ADIABATIC_TIME, Bound, Boundary
from coordination.curves.from_part import melted_by, missing_sides, opening_from
from coordination.curves.opening import Opening
from coordination.curves.pair import Comparison, PairResult, compare_at, compare_pair

__all__ = [
    "ADIABATIC_TIME", "Bound", "Boundary", "Comparison", "Opening", "PairResult", "compare_at",
    "compare_pair", "melted_by", "missing_sides", "opening_from",
]  # fmt: skip
