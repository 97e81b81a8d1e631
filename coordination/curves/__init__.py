"""Time-current behaviour: when a device opens at the earliest, when it has cleared at the latest.

Knows the boundaries that parts state and what physics adds to them; leaves currents, circuits and
verdicts to others.
"""

from coordination.curves.boundary import Bound, Boundary

__all__ = ["Bound", "Boundary"]
