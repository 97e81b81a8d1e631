"""What a fault's heat does to copper while none of it escapes, by three published forms.

Knows one conductor and an energy; how much a device lets through is told by its curve.
"""

from __future__ import annotations

from math import exp, inf, log, log10, sqrt

from coordination.errors import OutOfRange
from coordination.physics.conductors import COPPER_BETA, COPPER_RESISTIVITY
from coordination.physics.guards import (
    require_not_negative,
    require_positive,
    require_within,
)

#: Heat capacity of copper per volume [J/(K*m**3)].
COPPER_HEAT_CAPACITY = 3.45e6
#: The k factor's constant, Qc (β + 20) / rho [A**2*s/m**4]; its root is 225.7 A·s^0.5/mm².
COPPER_CONSTANT = COPPER_HEAT_CAPACITY * (COPPER_BETA + 20.0) / COPPER_RESISTIVITY
#: The same root as IEC 60949 rounds it [A*s**0.5/m**2].
K_IEC_60949 = 226e6
#: One circular mil [m**2].
CIRCULAR_MIL = 5.067075e-10
ICEA_CONSTANT, ICEA_BETA = 0.0297, 234.0
MELTING_POINT = 1083.0
#: Highest insulation temperature [°C] to the lowest published short-circuit temperature [°C] of any
#: common insulation rated for it: PVC's up to 90 °C (IEC), thermoplastic's up to 105 °C (ICEA).
LOWEST_FINAL = ((65.0, 150.0), (90.0, 160.0), (105.0, 150.0))
#: Area [m**2] above which PVC ends at a lower temperature [°C].
LARGE_AREA, LARGE_FINAL = 300e-6, 140.0


def _require_heating(initial: float, final: float) -> None:
    require_within(-90.0, MELTING_POINT, initial=initial, final=final)
    if final <= initial:
        raise OutOfRange("final", final, f"above the initial temperature, {initial:g} °C")


def lowest_final_temperature(insulation: float, area: float) -> float:
    """Lowest temperature that any common insulation bears at the end of a short circuit.

    T_f(T_rated, S), a table

    insulation -- temperature for which the insulation is rated T_rated [degC]
    area       -- conductor cross-section S [m**2]
    gives      -- highest conductor temperature at the end T_f [degC]
    Raises OutOfRange if the insulation is rated above 105 °C (none is published), or area is not
    positive.
    Source: IEC 60364-4-43:2008, Table 43A, PVC (from memory, not read here); up to 65 °C and from
    90 to 105 °C NFPA 70 (NEC) 2023, Table 240.92(B), thermoplastic.

    >>> lowest_final_temperature(90.0, 50e-6), lowest_final_temperature(70.0, 400e-6)
    (160.0, 140.0)
    """
    require_positive(area=area)
    # 194 °F is 90.00000000000001 °C.
    rated = insulation * (1 - 1e-9)
    lowest = next((final for upto, final in LOWEST_FINAL if rated <= upto), None)
    if lowest is None:
        raise OutOfRange("insulation", insulation, "at most 105 °C")
    return min(lowest, LARGE_FINAL) if area > LARGE_AREA else lowest


def k_factor(initial: float, final: float) -> float:
    """Factor of a copper conductor between two temperatures.

    sqrt(Qc (β + 20) / rho_20 ln((β + T_f) / (β + T_i))), β = 234.5 K

    initial -- conductor temperature when the fault begins T_i [degC]
    final   -- highest short-time temperature of the insulation T_f [degC]
    gives   -- k [A*s**0.5/m**2]
    Raises OutOfRange unless -90 <= T_i < T_f <= 1083 °C.
    Source: IEC 60364-5-54:2011, Annex A.

    >>> round(k_factor(90, 250) / 1e6)           # XLPE, 90 to 250 °C: 143
    143
    """
    _require_heating(initial, final)
    return sqrt(COPPER_CONSTANT * log((COPPER_BETA + final) / (COPPER_BETA + initial)))


def adiabatic_limit(area: float, k: float) -> float:
    """Largest let-through energy a conductor absorbs without losing heat.

    k² S²

    area  -- conductor cross-section S [m**2]
    k     -- conductor and insulation factor [A*s**0.5/m**2]
    gives -- k² S² [A**2*s]
    Raises OutOfRange if area or k is not positive.
    Holds for faults up to 5 s; longer ones cool and need another method.
    Source: IEC 60364-4-43:2008, 434.5.2 (from memory, not read here).

    >>> round(adiabatic_limit(10e-6, 115e6))     # 10 mm², k = 115: 1.3225 × 10⁶ A²s
    1322500
    """
    require_positive(area=area, k=k)
    return (k * area) ** 2


def time_to_limit(limit: float, current: float) -> float:
    """Time for which a conductor withstands a steady fault current.

    J / I²

    limit   -- largest let-through energy J [A**2*s]
    current -- fault current I [A]
    gives   -- time [s]
    Raises OutOfRange if limit is negative or current not positive.
    Holds up to 5 s; above, the true time is longer.
    Source: IEC 60364-4-43:2008, 434.5.2 (from memory, not read here).

    >>> round(time_to_limit(82656.0, 432.0), 3)  # 2.5 mm² PVC at 432 A: 0.443 s
    0.443
    """
    require_not_negative(limit=limit)
    require_positive(current=current)
    return limit / current**2


def temperature_after(initial: float, energy: float, area: float) -> float:
    """Temperature of a copper conductor after a let-through energy, if no heat escapes.

    (β + T_i) exp(J / (K² S²)) - β, K² = Qc (β + 20) / rho_20, β = 234.5 K

    initial -- conductor temperature when the fault begins T_i [degC]
    energy  -- let-through J [A**2*s]
    area    -- conductor cross-section S [m**2]
    gives   -- temperature when it ends; infinite where the copper would melt [degC]
    Raises OutOfRange if T_i is outside -90 ... 1083 °C, energy negative, or area not positive.
    Holds below copper's melting point, 1083 °C.
    Source: IEC 60364-5-54:2011, Annex A, solved for the final temperature.

    >>> round(temperature_after(90.0, (143e6 * 10e-6) ** 2, 10e-6))  # 250 °C, from k = 143
    250
    """
    require_within(-90.0, MELTING_POINT, initial=initial)
    require_not_negative(energy=energy)
    require_positive(area=area)
    exponent = energy / (COPPER_CONSTANT * area**2)
    if exponent > log((COPPER_BETA + MELTING_POINT) / (COPPER_BETA + initial)):
        return inf
    return (COPPER_BETA + initial) * exp(exponent) - COPPER_BETA


def adiabatic_current(area: float, time: float, initial: float, final: float) -> float:
    """Current that brings a copper conductor to its limit in a time, if no heat escapes.

    K S sqrt(ln((β + T_f) / (β + T_i)) / t), K = 226 A·s^0.5/mm², β = 234.5 K

    area    -- conductor cross-section S [m**2]
    time    -- duration of the fault t [s]
    initial -- conductor temperature when it begins T_i [degC]
    final   -- highest short-time temperature T_f [degC]
    gives   -- current I_AD [A]
    Raises OutOfRange if area or time is not positive, or T_f not above T_i.
    Holds for any time as a lower bound: heat that escapes allows more.
    Source: IEC 60949:1988, clause 3.

    >>> round(adiabatic_current(1e-6, 1.0, 30.0, 500.0))  # bare copper, 30 to 500 °C: 228 A/mm²
    228
    """
    require_positive(area=area, time=time)
    _require_heating(initial, final)
    return K_IEC_60949 * area * sqrt(log((COPPER_BETA + final) / (COPPER_BETA + initial)) / time)


def icea_limit(area: float, initial: float, final: float) -> float:
    """Largest let-through energy of a copper conductor, by the North American form.

    0.0297 A² log10((T_f + 234) / (T_i + 234)), A in circular mils

    area    -- conductor cross-section A [m**2]
    initial -- conductor temperature when the fault begins T_i [degC]
    final   -- highest short-time temperature T_f [degC]
    gives   -- I² t [A**2*s]
    Raises OutOfRange if area is not positive, or T_f not above T_i.
    Holds for times up to 10 s; 1.5 % below the IEC form.
    Source: NFPA 70 (NEC) 2023, Table 240.92(B), as ICEA P-32-382.

    >>> round(icea_limit(1e-6, 75.0, 150.0) ** 0.5, 1)  # hand: sqrt(0.0297 × 1973.525² × 0.09437)
    104.5
    """
    require_positive(area=area)
    _require_heating(initial, final)
    return ICEA_CONSTANT * (area / CIRCULAR_MIL) ** 2 * log10(
        (final + ICEA_BETA) / (initial + ICEA_BETA)
    )
