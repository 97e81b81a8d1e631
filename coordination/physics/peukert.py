"""How a lead-acid battery gives less, the faster it is emptied.

For lead-acid only: a lithium battery's capacity hardly depends on the current.
"""

from __future__ import annotations

from coordination.physics.guards import require_positive, require_within


def peukert_time(capacity: float, rated_time: float, current: float, exponent: float) -> float:
    """How long a full lead-acid battery gives a constant current.

    H (C / (I H))^k

    capacity   -- rated C, at the discharge in the rated time [A*s]
    rated_time -- time of that discharge H [s]
    current    -- I [A]
    exponent   -- of the battery k [1]
    gives      -- time until empty [s]
    Raises OutOfRange if a value is not positive or exponent outside 1 ... 2.
    Holds for currents of C / H and more; below that it promises more charge than there is.
    Source: W. Peukert, Elektrotechnische Zeitschrift 20 (1897), p. 287 (from memory).

    >>> round(peukert_time(100 * 3600.0, 20 * 3600.0, 25.0, 1.2) / 3600, 2)  # hand: 20 × 0.2^1.2
    2.9
    """
    require_positive(capacity=capacity, rated_time=rated_time, current=current)
    require_within(1.0, 2.0, exponent=exponent)
    return rated_time * float((capacity / (current * rated_time)) ** exponent)
