"""Short-circuit current of stationary batteries by the European standard, as information.

Never the bound of a verdict: the bounds are `batteries.short_circuit_current` with its bands.
"""

from __future__ import annotations

from coordination.physics.guards import require_not_negative, require_positive


def stationary_peak_current(emf: float, battery: float, external: float) -> float:
    """Peak short-circuit current of a stationary battery, as information.

    E_B / (0.9 R_B + R)

    emf      -- open-circuit voltage E_B [V]
    battery  -- resistance of the battery with its links R_B [ohm]
    external -- resistance of cables and common branch R [ohm]
    gives    -- peak current [A]
    Raises OutOfRange if emf or external is negative or battery not positive.
    Holds for lead-acid and nickel-cadmium; lithium is an extension that nobody published.
    Source: IEC 61660-1:1997, clause 2.4 (from memory, not read here).

    >>> round(stationary_peak_current(100.0, 0.1, 0.01))  # hand calculation: 100 / (0.09 + 0.01)
    1000
    """
    require_not_negative(emf=emf, external=external)
    require_positive(battery=battery)
    return emf / (0.9 * battery + external)


def stationary_steady_current(emf: float, battery: float, external: float) -> float:
    """Short-circuit current of a stationary battery after a second, as information.

    0.95 E_B / (0.9 R_B + R + 0.1 R_B)

    emf      -- open-circuit voltage E_B [V]
    battery  -- resistance of the battery with its links R_B [ohm]
    external -- resistance of cables and common branch R [ohm]
    gives    -- quasi-steady current [A]
    Raises OutOfRange if emf or external is negative or battery not positive.
    Holds for lead-acid and nickel-cadmium; lithium is an extension that nobody published.
    Source: IEC 61660-1:1997, clause 2.4 (from memory, not read here).

    >>> round(stationary_steady_current(100.0, 0.09, 0.01))  # hand calculation: 95 / 0.1
    950
    """
    require_not_negative(emf=emf, external=external)
    require_positive(battery=battery)
    return 0.95 * emf / (battery + external)
