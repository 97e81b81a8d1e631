"""What a battery bank drives into a fault, and what its resistance is from what is known of it.

Banks are sums of batteries; how cables share the current between them is the network's affair.
"""

from __future__ import annotations

from collections.abc import Sequence

from coordination.physics.guards import (
    require_count,
    require_not_negative,
    require_positive,
    require_some,
)

#: Resistance of a battery of which one figure is known: its lowest and highest, as shares of it.
BAND_LOW, BAND_HIGH = 0.85, 1.60


def short_circuit_current(emf: float, resistance: float) -> float:
    """Current that a source drives through a bolted fault.

    E / R

    emf        -- open-circuit voltage E [V]
    resistance -- of the whole loop R [ohm]
    gives      -- prospective short-circuit current [A]
    Raises OutOfRange if emf is negative or resistance not positive.
    Source: Ohm's law.

    >>> round(short_circuit_current(54.4, 12e-3))  # hand calculation: 54.4 V / 12 mΩ
    4533
    """
    require_not_negative(emf=emf)
    require_positive(resistance=resistance)
    return emf / resistance


def resistance_from_declared(emf_high: float, current: float) -> float:
    """Lowest resistance of a battery whose maker declares a short-circuit current only.

    E_max / I

    emf_high -- open-circuit voltage at full charge E_max [V]
    current  -- declared short-circuit current I [A]
    gives    -- resistance, the low bound [ohm]
    Raises OutOfRange if a value is not positive.
    Holds for the low bound only; nothing follows for an aged or cold battery.
    Source: Ohm's law.

    >>> round(resistance_from_declared(27.2, 8500.0) * 1000, 2)  # hand: 27.2 V / 8.5 kA
    3.2
    """
    require_positive(emf_high=emf_high, current=current)
    return emf_high / current


def resistance_band_low(resistance: float) -> float:
    """Lowest resistance to assume of a battery of which one figure is known.

    0.85 R

    resistance -- the known figure R [ohm]
    gives      -- low bound [ohm]
    Raises OutOfRange if the resistance is not positive.
    Source: common practice.

    >>> round(resistance_band_low(3.2), 2)       # hand calculation: 3.2 less 15 %
    2.72
    """
    require_positive(resistance=resistance)
    return BAND_LOW * resistance


def resistance_band_high(resistance: float) -> float:
    """Highest resistance to assume of a battery of which one figure is known.

    1.60 R

    resistance -- the known figure R [ohm]
    gives      -- high bound [ohm]
    Raises OutOfRange if the resistance is not positive.
    Source: common practice.

    >>> round(resistance_band_high(3.2), 2)      # hand calculation: 3.2 and 60 % more
    5.12
    """
    require_positive(resistance=resistance)
    return BAND_HIGH * resistance


def measured_resistance(
    voltage_light: float, current_light: float, voltage_heavy: float, current_heavy: float
) -> float:
    """DC resistance of a battery from two loads on it.

    (U_1 - U_2) / (I_2 - I_1)

    voltage_light -- terminal voltage at the lighter load U_1 [V]
    current_light -- lighter load I_1 [A]
    voltage_heavy -- terminal voltage at the heavier load U_2 [V]
    current_heavy -- heavier load I_2 [A]
    gives         -- resistance [ohm]
    Raises OutOfRange unless the heavier load is the larger and its voltage the lower.
    Source: Ohm's law.

    >>> round(measured_resistance(26.8, 0.0, 26.16, 200.0) * 1000, 2)  # hand: 0.64 V / 200 A
    3.2
    """
    require_not_negative(current_light=current_light, voltage_heavy=voltage_heavy)
    require_positive(
        current_step=current_heavy - current_light, voltage_step=voltage_light - voltage_heavy
    )
    return (voltage_light - voltage_heavy) / (current_heavy - current_light)


def cell_bank_resistance(cell: float, series: float, parallel: float, links: float) -> float:
    """Resistance of a bank built of equal cells, from terminal to terminal.

    R_c n_s / n_p + R_l

    cell     -- resistance of one cell R_c [ohm]
    series   -- cells in series n_s [1]
    parallel -- cells in parallel n_p [1]
    links    -- resistance of all links and terminals in series R_l [ohm]
    gives    -- resistance of the bank [ohm]
    Raises OutOfRange if a resistance is out of range or a count no whole number from 1.
    Source: Kirchhoff's laws.

    >>> round(cell_bank_resistance(0.25, 8, 1, 1.2), 2)  # hand calculation: 8 × 0.25 + 1.2
    3.2
    """
    require_positive(cell=cell)
    require_not_negative(links=links)
    require_count(series=series, parallel=parallel)
    return cell * series / parallel + links


def series_sum(values: Sequence[float]) -> float:
    """Resistance of a string: its resistances add up.

    R_1 + R_2 + ...

    values -- resistance of every part of the string [ohm, each]
    gives  -- resistance of the string [ohm]
    Raises OutOfRange if there is none, or one is negative.
    Source: Kirchhoff's laws.

    >>> round(series_sum([0.3, 0.2, 0.25]), 2)   # hand calculation
    0.75
    """
    require_some(values=values)
    for value in values:
        require_not_negative(resistance=value)
    return sum(values)


def series_emf(values: Sequence[float]) -> float:
    """Open-circuit voltage of a string: its voltages add up.

    E_1 + E_2 + ...

    values -- open-circuit voltage of every battery of the string [V, each]
    gives  -- open-circuit voltage of the string [V]
    Raises OutOfRange if there is none, or one is negative.
    Source: Kirchhoff's laws.

    >>> round(series_emf([13.6, 13.6]), 1)       # hand calculation
    27.2
    """
    require_some(values=values)
    for value in values:
        require_not_negative(emf=value)
    return sum(values)


def parallel_resistance(values: Sequence[float]) -> float:
    """Resistance of strings side by side.

    1 / (1 / R_1 + 1 / R_2 + ...)

    values -- resistance of every string [ohm, each]
    gives  -- resistance of the bank [ohm]
    Raises OutOfRange if there is none, or one is not positive.
    Source: Kirchhoff's laws.

    >>> parallel_resistance([6.0, 3.0])          # hand calculation: 18 / 9
    2.0
    """
    require_some(values=values)
    for value in values:
        require_positive(resistance=value)
    return 1.0 / sum(1.0 / value for value in values)


def parallel_emf(emfs: Sequence[float], resistances: Sequence[float]) -> float:
    """Open-circuit voltage of strings side by side: the mean, weighted by conductance.

    (E_1 / R_1 + E_2 / R_2 + ...) / (1 / R_1 + 1 / R_2 + ...)

    emfs        -- open-circuit voltage of every string [V, each]
    resistances -- resistance of every string, in the same order [ohm, each]
    gives       -- open-circuit voltage of the bank [V]
    Raises OutOfRange if there is none, they are not as many, or a value is out of range.
    Source: Kirchhoff's laws.

    >>> parallel_emf([12.0, 13.5], [2.0, 1.0])   # hand calculation: (6 + 13.5) / 1.5
    13.0
    """
    return parallel_current(emfs, resistances) * parallel_resistance(resistances)


def parallel_current(emfs: Sequence[float], resistances: Sequence[float]) -> float:
    """Current that strings side by side drive into a bolted fault: each gives its own.

    E_1 / R_1 + E_2 / R_2 + ...

    emfs        -- open-circuit voltage of every string [V, each]
    resistances -- resistance of every string, in the same order [ohm, each]
    gives       -- prospective short-circuit current of the bank [A]
    Raises OutOfRange if there is none, they are not as many, or a value is out of range.
    Source: Kirchhoff's laws.

    >>> round(parallel_current([27.2, 27.2], [3.2e-3, 3.2e-3]))  # hand: 2 × 8.5 kA
    17000
    """
    require_some(emfs=emfs)
    require_count(strings_per_resistance=len(emfs) / len(resistances) if resistances else 0.0)
    require_count(resistances_per_string=len(resistances) / len(emfs))
    return sum(
        short_circuit_current(emf, resistance)
        for emf, resistance in zip(emfs, resistances, strict=True)
    )


def equalising_current(emf_high: float, emf_low: float, resistance: float) -> float:
    """Current between two batteries of different charge when they are joined.

    (E_1 - E_2) / R

    emf_high   -- open-circuit voltage of the fuller one E_1 [V]
    emf_low    -- open-circuit voltage of the emptier one E_2 [V]
    resistance -- of the whole loop, both batteries and their leads R [ohm]
    gives      -- current at the moment of joining [A]
    Raises OutOfRange if E_1 is below E_2, or resistance not positive.
    Source: Kirchhoff's laws.

    >>> round(equalising_current(27.2, 25.6, 8e-3))  # hand calculation: 1.6 V / 8 mΩ
    200
    """
    require_not_negative(emf_low=emf_low, emf_difference=emf_high - emf_low)
    require_positive(resistance=resistance)
    return (emf_high - emf_low) / resistance
