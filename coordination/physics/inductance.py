"""Inductance of a pair of conductors, and how it delays a fault current.

Knows the cable loop only; what batteries and motors add must be stated by whoever knows it.
"""

from __future__ import annotations

from math import expm1, log, pi, sqrt

from coordination.errors import OutOfRange
from coordination.physics.conductors import STRAND_FILL, outside_diameter
from coordination.physics.guards import require_not_negative, require_positive

#: Magnetic constant over π [H/m].
MU0_OVER_PI = 4e-7


def conductor_radius(area: float) -> float:
    """Radius over the strands of a conductor of a nominal area.

    1.13 sqrt(S / π)

    area  -- nominal cross-section S [m**2]
    gives -- radius r [m]
    Raises OutOfRange if area is not positive.
    Source: NFPA 70 (NEC), chapter 9 Table 8: stranded over solid diameter 1.13 to 1.15.

    >>> round(conductor_radius(16e-6) * 1000, 2)  # hand calculation: 1.13 × 2.257 mm
    2.55
    """
    require_positive(area=area)
    return STRAND_FILL * sqrt(area / pi)


def touching_spacing(area: float) -> float:
    """Distance between the centres of two equal cables that touch, where none is stated.

    D

    area  -- nominal cross-section S [m**2]
    gives -- distance between the centres d [m]
    Raises OutOfRange if area is not positive.
    Source: common practice.

    >>> round(touching_spacing(16e-6) * 1000, 1)  # hand calculation: the diameter over insulation
    7.1
    """
    return outside_diameter(area)


def inductance_per_length(spacing: float, radius: float) -> float:
    """Inductance of the loop of two round conductors, per metre of run (not of wire).

    mu0/π (ln(d / r) + 1/4), which is 0.4 ln(d / r) + 0.1 µH/m

    spacing -- distance between the centres d [m]
    radius  -- of either conductor r; for unequal ones sqrt(r_1 r_2) [m]
    gives   -- inductance per length of run [H/m]
    Raises OutOfRange if radius is not positive or the conductors would overlap (d < 2 r).
    Holds for even current over the section (DC, slow faults) and no iron near by.
    Source: inductance of two round wires; external part read, internal part 1/4 from memory.

    >>> round(inductance_per_length(0.05, 2.55e-3) * 1e6, 2)  # 16 mm², 50 mm apart: 1.290 µH/m
    1.29
    """
    require_positive(spacing=spacing, radius=radius)
    if spacing < 2.0 * radius * (1.0 - 1e-9):
        raise OutOfRange("spacing", spacing, f"at least two radii, {2.0 * radius:g} m")
    return MU0_OVER_PI * (log(spacing / radius) + 0.25)


def loop_inductance(per_length: float, length: float) -> float:
    """Inductance of a run of a pair of conductors.

    L' l

    per_length -- inductance per length of run, L' [H/m]
    length     -- of the run, one way, l [m]
    gives      -- loop inductance [H]
    Raises OutOfRange if a value is negative.
    Holds for one pair; pairs in parallel have less, so one pair's is an upper bound.
    Source: definition.

    >>> round(loop_inductance(0.542e-6, 4.0) * 1e6, 2)  # hand calculation: 4 m of 0.542 µH/m
    2.17
    """
    require_not_negative(per_length=per_length, length=length)
    return per_length * length


def time_constant(inductance: float, resistance: float) -> float:
    """Time in which the current of a loop rises to 63 % of its final value.

    L / R

    inductance -- of the loop L [H]
    resistance -- of the loop R [ohm]
    gives      -- time constant tau [s]
    Raises OutOfRange if inductance is negative or resistance not positive.
    Source: differential equation of an RL circuit.

    >>> round(time_constant(2.87e-6, 24.37e-3) * 1000, 2)  # hand calculation: 2.87 µH / 24.37 mΩ
    0.12
    """
    require_not_negative(inductance=inductance)
    require_positive(resistance=resistance)
    return inductance / resistance


def rising_current(final_current: float, time: float, time_constant: float) -> float:
    """Fault current a time after it began, on its way to its final value.

    I (1 - exp(-t / tau))

    final_current -- prospective current I [A]
    time          -- since the fault began t [s]
    time_constant -- of the loop tau; 0 for a loop without inductance [s]
    gives         -- current at that time [A]
    Raises OutOfRange if a value is negative.
    Source: differential equation of an RL circuit.

    >>> round(rising_current(1000.0, 1.0, 1.0))  # hand calculation: 1000 A × 0.632
    632
    """
    require_not_negative(final_current=final_current, time=time, time_constant=time_constant)
    if time_constant == 0.0:
        return final_current if time > 0.0 else 0.0
    return -final_current * expm1(-time / time_constant)
