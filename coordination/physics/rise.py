"""Heating while a fault current rises through the loop's inductance.

The prospective current of a resistive-inductive DC loop is i = I (1 - e^(-t/tau)); a fuse element
or a conductor feels the integral of i². What opens, and when, is left to the curves.
"""

from __future__ import annotations

from math import expm1

from coordination.physics.guards import require_not_negative, require_positive


def heating_integral(current: float, time_constant: float, time: float) -> float:
    """Heating integral from the start of a fault to a time, while the current rises.

    I² (t - 2 τ (1 - e^(-t/τ)) + τ/2 (1 - e^(-2t/τ)))

    current       -- prospective (final) fault current I [A]
    time_constant -- L/R of the loop τ; 0 for a current that is there at once [s]
    time          -- time since the fault began t [s]
    gives         -- ∫ i² dt [A**2*s]
    Raises OutOfRange if current or time_constant or time is negative.
    Source: integral of I² (1 - e^(-t/τ))², definition.

    >>> round(heating_integral(1000.0, 0.0, 0.01))
    10000
    >>> round(heating_integral(1000.0, 0.01, 0.01), 1)  # 1 - 1.264241 + 0.432332 = 0.168091
    1680.9
    """
    require_not_negative(current=current, time_constant=time_constant, time=time)
    if time_constant == 0:
        return current**2 * time
    return current**2 * time_constant * _risen_share(time / time_constant)


def _risen_share(ratio: float) -> float:
    """x - 2 (1 - e^-x) + (1 - e^-2x)/2, by its series x³/3 - x⁴/4 + 7x⁵/60 - x⁶/24 where small."""
    if ratio < 1e-2:
        return ratio**3 * (1 / 3 - ratio / 4 + 7 * ratio**2 / 60 - ratio**3 / 24)
    return ratio + 2 * expm1(-ratio) - expm1(-2 * ratio) / 2


def time_to_heat(current: float, time_constant: float, energy: float) -> float:
    """Time until the heating integral of a rising current reaches an I²t.

    solves I² (t - 2 τ (1 - e^(-t/τ)) + τ/2 (1 - e^(-2t/τ))) = J

    current       -- prospective (final) fault current I [A]
    time_constant -- L/R of the loop τ; 0 for a current that is there at once [s]
    energy        -- I²t to reach J [A**2*s]
    gives         -- time since the fault began t [s]
    Raises OutOfRange if current is not positive, or time_constant or energy is negative.
    Source: inverse of the heating integral, by Newton's method; definition.

    >>> time_to_heat(1000.0, 0.0, 10000.0)
    0.01
    >>> round(time_to_heat(1000.0, 0.01, 1680.91), 6)
    0.01
    """
    require_positive(current=current)
    require_not_negative(time_constant=time_constant, energy=energy)
    at_once = energy / current**2
    if time_constant == 0 or energy == 0:
        return at_once
    # The rise delays by at most 1.5 tau. From there Newton's steps only come down, as the integral
    # bends upwards; the first that does not is rounding.
    time = at_once + 1.5 * time_constant
    while True:
        flowing = current * expm1(-time / time_constant)
        excess = heating_integral(current, time_constant, time) - energy
        earlier = time - excess / flowing**2
        if not at_once <= earlier < time:
            return time
        time = earlier
