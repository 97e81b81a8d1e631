"""What holds for every input: directions, balances and sums."""

from __future__ import annotations

from math import isclose, pi

from hypothesis import assume, given
from hypothesis import strategies as st

from coordination.physics import (
    adiabatic,
    ampacity,
    batteries,
    bundling,
    busbars,
    inductance,
    loads,
)
from coordination.physics import conductors as c
from coordination.physics import temperature as t

areas = st.floats(0.5e-6, 400e-6)
insulations = st.floats(60.0, 200.0)
ambients = st.floats(-30.0, 59.0)
steps = st.floats(1.001, 5.0)
lengths = st.floats(0.0, 100.0)
milliohms = st.floats(0.01e-3, 1.0)
volts = st.floats(0.0, 1000.0)


def pair(area, insulation, ambient):
    limit = c.nominal_resistance_limit(area)
    return ampacity.pair_ampacity(area, limit, insulation, c.outside_diameter(area), ambient)


@given(areas, lengths, steps)
def test_resistance_grows_with_length(area, length, step):
    each = c.resistance_per_length(area)
    assume(length > 1e-6)
    assert c.leg_resistance(each, length * step) > c.leg_resistance(each, length)


@given(milliohms, st.floats(-80.0, 900.0), st.floats(0.01, 100.0))
def test_resistance_grows_with_temperature(cold, temperature, warmer):
    hot = c.resistance_at_temperature(cold, temperature + warmer)
    assert hot > c.resistance_at_temperature(cold, temperature)


@given(areas, st.sampled_from(["class 1", "class 2", "class 5", "class 6 tinned", "class k", None]))
def test_largest_resistance_is_above_nominal(area, stranding):
    assert c.maximum_resistance_per_length(area, stranding) > c.resistance_per_length(area)


@given(areas, steps)
def test_outside_grows_with_area(area, step):
    assert c.outside_diameter(area * step) > c.outside_diameter(area) > c.conductor_diameter(area)


@given(areas, insulations, ambients, st.floats(0.1, 100.0))
def test_ampacity_falls_with_ambient(area, insulation, ambient, warmer):
    cool, warm = pair(area, insulation, ambient), pair(area, insulation, ambient + warmer)
    assert warm < cool
    assert warm >= 0.0


@given(areas, insulations, ambients, steps)
def test_ampacity_grows_with_area(area, insulation, ambient, step):
    assert pair(area * step, insulation, ambient) > pair(area, insulation, ambient)


@given(areas, insulations, ambients)
def test_heat_balance_closes(area, insulation, ambient):
    """The heat the current makes, sent back out by insulation and surface, gives the rise again."""
    current = pair(area, insulation, ambient)
    hot = c.nominal_resistance_limit(area) * (234.5 + insulation) / 254.5
    heat = current**2 * hot
    conductor, outside = c.conductor_diameter(area), c.outside_diameter(area)
    rise = ampacity.conductor_rise(heat, conductor, outside)
    assert isclose(rise, insulation - ambient, rel_tol=1e-9)
    surface = ampacity.surface_rise(heat, outside)
    leaving = pi * outside * ampacity.film_coefficient(outside) * surface**1.25
    assert isclose(leaving, heat, rel_tol=1e-9)


@given(areas, insulations, ambients)
def test_heat_balance_is_kinder_than_the_square_root_law_below_reference(area, insulation, ambient):
    """Film heat goes with rise^1.25, so our factor away from 30 °C is at most the published law's
    where the air is warmer, and at least it where the air is cooler (small rises cool badly)."""
    assume(abs(ambient - 30.0) > 0.1)
    ratio = pair(area, insulation, ambient) / pair(area, insulation, 30.0)
    law = t.ambient_factor(insulation, ambient, 30.0)
    assert ratio <= law * (1 + 1e-9) if ambient > 30.0 else ratio >= law * (1 - 1e-9)


@given(st.integers(1, 400))
def test_bundle_factor_falls_and_total_grows(pairs):
    less, more = bundling.bundle_factor(pairs), bundling.bundle_factor(pairs + 1)
    assert 0.0 < more < less <= 1.0
    assert more * (pairs + 1) > less * pairs


strings = st.lists(st.tuples(volts, milliohms), min_size=1, max_size=12)


@given(strings)
def test_parallel_bank_current_is_the_sum(bank):
    emfs, resistances = [e for e, _ in bank], [r for _, r in bank]
    total = batteries.parallel_current(emfs, resistances)
    assert isclose(total, sum(e / r for e, r in bank), rel_tol=1e-12)
    thevenin = batteries.parallel_emf(emfs, resistances), batteries.parallel_resistance(resistances)
    assert isclose(batteries.short_circuit_current(*thevenin), total, rel_tol=1e-9)
    assert min(emfs) - 1e-9 <= thevenin[0] <= max(emfs) + 1e-9
    assert thevenin[1] <= min(resistances) * (1 + 1e-12)


@given(strings, st.integers(2, 6))
def test_equal_strings_in_series_keep_their_current(bank, count):
    emf, resistance = bank[0]
    total = batteries.short_circuit_current(
        batteries.series_emf([emf] * count), batteries.series_sum([resistance] * count)
    )
    assert isclose(total, emf / resistance, rel_tol=1e-12)


@given(st.floats(1.0, 5000.0), st.floats(0.01, 1.0), st.floats(6.0, 60.0))
def test_equipment_gets_its_power_back(power, efficiency, voltage):
    current = loads.equipment_current(power, efficiency, voltage)
    assert isclose(current * voltage * efficiency, power, rel_tol=1e-12)


@given(st.floats(1.0, 1e5), st.floats(0.0, 1.0), st.floats(0.0, 0.1))
def test_current_rises_towards_its_end(final, time, tau):
    now = inductance.rising_current(final, time, tau)
    assert 0.0 <= now <= final
    assert inductance.rising_current(final, time * 2, tau) >= now


@given(st.floats(-50.0, 200.0), st.floats(1.0, 700.0), areas)
def test_energy_and_temperature_are_inverse(initial, rise, area):
    final = initial + rise
    limit = adiabatic.adiabatic_limit(area, adiabatic.k_factor(initial, final))
    after = adiabatic.temperature_after(initial, limit, area)
    assert isclose(after, final, rel_tol=1e-9, abs_tol=1e-7)


@given(st.floats(0.005, 0.2), st.floats(0.001, 0.02), st.floats(0.0, 60.0), st.floats(1.0, 60.0))
def test_bar_carries_less_in_warmer_air(width, thickness, ambient, warmer):
    cool = busbars.bar_current(width, thickness, ambient, 120.5)
    assert busbars.bar_current(width, thickness, ambient + warmer, 120.5) < cool
