"""Banks by hand: run time of invented systems, sharing, charging, equalising; what must hold.

Expected figures are sums written here; sharing is held against a nodal solution of its own.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from coordination.trace import Unknown
from tests.coordination.study.banks import AH, HOUR, case, hours, one_bank, study_of


def test_the_tender():
    """2 × 230 Ah at 80 %, 14.2 A on average: 368 Ah / 14.2 A = 25.92 h."""
    text = one_bank(25.6, 460, 80, ["{current: 14.2 A}"])
    assert hours(text) == pytest.approx(25.92, abs=0.005)


def test_the_van():
    """280 Ah at 85 %; fridge 4.5 A 40 %, heater 1.5 A, lights 3 A, pump 8 A at 5 %, rest 4.8 A.

    1.8 + 1.5 + 3 + 0.4 + 4.8 = 11.5 A; 238 / 11.5 = 20.70 h.
    """
    loads = ["{current: 4.5 A, duty: 40 %}", "{current: 1.5 A}", "{current: 3 A}",
             "{current: 8 A, duty: 5 %}", "{current: 4.8 A}"]  # fmt: skip
    assert hours(one_bank(12.8, 280, 85, loads)) == pytest.approx(20.70, abs=0.005)


def test_power_counts_at_nominal_voltage_and_at_the_lowest_for_the_least():
    """300 W / 0.9 / 25.6 V = 13.02 A; at 22 V 15.15 A. Both at 80 % of the time."""
    load = "{power: 300 W, efficiency: 90 %, min_voltage: 22 V, duty: 80 %}"
    made = study_of(one_bank(25.6, 100, 100, [load]))
    (bank,) = made.banks()
    average = made.average_load(bank)
    assert average.nominal.value == pytest.approx(10.4167, rel=1e-4)
    assert average.most.value == pytest.approx(12.1212, rel=1e-4)
    assert made.at_once(bank).value == pytest.approx(15.1515, rel=1e-4)


def test_a_starter_is_no_lasting_load():
    made = study_of(one_bank(12.8, 100, 100, ["{current: 5 A}", "{current: 200 A, cranking: yes}"]))
    (bank,) = made.banks()
    assert [load.subject.name for load in made.loads_of(bank)] == ["e0"]


def test_bounds_widen_by_tolerance_temperature_and_duty():
    """Least 100 × 0.8 × 0.95 × 0.9 = 68.4 Ah at 5 A; most 100 × 0.8 × 1.05 × 1.0 at 5 A."""
    made = case("start_side")
    bank = made.bank_of("plotter")
    times = made.run_time(bank)
    assert times.least.value / HOUR == pytest.approx(68.4 / 5)
    assert times.nominal.value / HOUR == pytest.approx(80 / 5)
    # 30 °C lies above the last row, 25 °C: 100 %.
    assert times.most.value / HOUR == pytest.approx(84 / 5)


def test_lead_acid_without_exponent_has_only_a_most():
    made = study_of(one_bank(12, 100, 50, ["{current: 20 A}"], "lead-acid agm"))
    (bank,) = made.banks()
    assert made.run_time(bank).nominal.missing == ("pack: rated_time",)
    more = ", rated_time: 20 h"
    made = study_of(one_bank(12, 100, 50, ["{current: 20 A}"], "lead-acid agm", more))
    assert made.run_time(made.banks()[0]).nominal.missing == ("pack: peukert_exponent",)
    # Up to the rated 5 A the charge itself is enough: 50 Ah / 5 A.
    made = study_of(one_bank(12, 100, 50, ["{current: 5 A}"], "lead-acid agm", more))
    assert made.run_time(made.banks()[0]).nominal.value == pytest.approx(10 * HOUR)


def test_lithium_is_never_given_a_peukert_exponent():
    made = study_of(one_bank(12.8, 100, 100, ["{current: 100 A}"]))
    steps = [step.symbol for step in made.run_time(made.banks()[0]).nominal.steps()]
    assert "k" not in steps
    assert made.run_time(made.banks()[0]).nominal.value == pytest.approx(HOUR)


@pytest.mark.parametrize(
    ("gone", "missing"),
    [
        (", usable_depth: 80 %", ("bank: usable_depth",)),
        ("capacity: 100 Ah,", ("pack: capacity",)),
        ("nominal_voltage: 12.8 V,", ()),
    ],
)
def test_what_is_not_stated_is_named(gone, missing):
    text = one_bank(12.8, 100, 80, ["{current: 5 A}"])
    assert text.count(gone) == 1
    made = study_of(text.replace(gone, ""))
    nominal = made.run_time(made.banks()[0]).nominal
    assert (nominal.missing if isinstance(nominal, Unknown) else ()) == missing


def test_nothing_drawn_is_no_run_time():
    made = study_of(one_bank(12.8, 100, 80, ["{current: 0 A}"]))
    assert made.run_time(made.banks()[0]).least.missing


# --- sharing ---


def _by_nodes(emf, ohms, leads, load):
    """Battery currents by a nodal matrix of its own: batteries behind leads on one bar."""
    conductances = 1.0 / (np.array(ohms) + np.array(leads))
    bar = (np.dot(conductances, emf) - load) / conductances.sum()
    return conductances * (np.array(emf) - bar)


def test_three_batteries_on_unequal_leads():
    """6 : 4 : 3 of 260 A."""
    made = case("three")
    (bank,) = made.banks()
    found = [share.current.value for share in made.shares(bank)]
    assert found == pytest.approx([120.0, 80.0, 60.0])
    assert found == pytest.approx(list(_by_nodes([13.0] * 3, [2e-3] * 3, [0, 1e-3, 2e-3], 260.0)))
    assert [s.ratio.value for s in made.shares(bank)] == pytest.approx([18 / 13, 12 / 13, 9 / 13])


def test_the_third_battery_of_the_trade_case():
    """Loops of 0.6, 1.4 and 2.2 m at 0.357 mΩ/m and 2 mΩ each: the trade says 112, 99 and 89 A."""
    made = case(
        "three",
        a=("[{fuse: fuse-125}, {joint: 0 mΩ}]", "[{fuse: fuse-125}, {joint: 0.2142 mΩ}]"),
        b=("{joint: 1 mΩ}", "{joint: 0.4998 mΩ}"),
        c=("[{fuse: fuse-125}, {joint: 2 mΩ}]", "[{fuse: fuse-125}, {joint: 0.7854 mΩ}]"),
        d=("current: 260 A", "current: 300 A"),
    )
    (bank,) = made.banks()
    found = [share.current.value for share in made.shares(bank)]
    assert found == pytest.approx([112, 99, 89], abs=0.5)


def test_stiff_batteries_in_a_row():
    """1 mΩ each, 1/3 mΩ links: 142.5, 90 and 67.5 A; the trade says 142, 91 and 67 A."""
    made = case("daisy")
    (bank,) = made.banks()
    found = [share.current.value for share in made.shares(bank)]
    assert found == pytest.approx([142.5, 90.0, 67.5], rel=1e-6)
    assert found == pytest.approx([142, 91, 67], abs=1.1)


milliohms = st.floats(0.05, 5.0)


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(milliohms, milliohms, milliohms, st.floats(10.0, 500.0))
def test_shares_add_up_to_the_load(near, middle, far, load):
    made = case(
        "three",
        a=("[{fuse: fuse-125}, {joint: 0 mΩ}]", f"[{{fuse: fuse-125}}, {{joint: {near:.6f} mΩ}}]"),
        b=("{joint: 1 mΩ}", f"{{joint: {middle:.6f} mΩ}}"),
        c=("[{fuse: fuse-125}, {joint: 2 mΩ}]", f"[{{fuse: fuse-125}}, {{joint: {far:.6f} mΩ}}]"),
        d=("current: 260 A", f"current: {load:.6f} A"),
    )
    (bank,) = made.banks()
    found = [share.current.value for share in made.shares(bank)]
    assert sum(found) == pytest.approx(load, rel=1e-5)
    leads = [near * 1e-3, middle * 1e-3, far * 1e-3]
    wanted = _by_nodes([13.0] * 3, [2e-3] * 3, leads, load)
    assert found == pytest.approx(list(wanted), rel=1e-4)
    charged = [made.charging_current(source).value for source in bank.sources]
    assert sum(charged) == pytest.approx(104.0, rel=1e-6)


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(st.integers(10, 2000), st.integers(10, 2000), st.integers(1, 300))
def test_more_capacity_never_shortens_the_run(one, other, load):
    small, large = sorted((one, other))
    times = [hours(one_bank(12.8, size, 80, [f"{{current: {load} A}}"])) for size in (small, large)]
    assert times[0] <= times[1]


@settings(deadline=None, max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(st.integers(1, 100), st.integers(1, 100), st.integers(0, 40), st.integers(0, 50))
def test_bounds_hold_what_lies_between(duty, least, tolerance, cold):
    """least ≤ nominal ≤ most, whatever the duty, the tolerance and the cold."""
    low = min(duty, least)
    more = (
        f", capacity_tolerance: {tolerance} %, "
        f"capacity_factors: [[-40 °C, {100 - cold} %], [20 °C, 100 %]]"
    )
    load = f"{{current: 9 A, duty: {duty} %, least_duty: {low} %}}"
    text = one_bank(12.8, 100, 80, [load], more=more)
    text = text.replace("parts:\n", "places:\n  hold: {ambient: 30 °C, coldest: 0 °C}\nparts:\n", 1)
    made = study_of(text.replace("usable_depth: 80 %}", "usable_depth: 80 %, place: hold}"))
    times = made.run_time(made.banks()[0])
    assert times.least.value <= times.nominal.value * (1 + 1e-12)
    assert times.nominal.value <= times.most.value * (1 + 1e-12)


# --- charging ---


def test_time_to_full_takes_loads_and_limits_off():
    """Charger 104 A less 26 A of load: 78 A into 3 × 100 Ah × 80 % = 240 Ah: 3.077 h at least."""
    made = case(
        "three",
        a=("current: 260 A", "current: 26 A"),
        b=("charge_current: 50 A", "charge_current: 50 A, usable_depth: 80 %"),
    )
    (bank,) = made.banks()
    (only,) = made.recharges(bank)
    assert only.into.value == pytest.approx(78.0)
    assert only.time.value / HOUR == pytest.approx(240 / 78)


def test_a_charger_that_the_loads_outweigh_fills_nothing():
    made = case("three")
    (only,) = made.recharges(made.banks()[0])
    assert isinstance(only.into, Unknown)
    assert isinstance(only.time, Unknown)


# --- equalising ---

def test_steps_can_be_checked_by_hand():
    depth = ("emf: {", "usable_depth: 50 %, emf: {")
    made = case("three", a=("current: 260 A", "current: 26 A"), b=depth)
    time = made.run_time(made.banks()[0]).nominal
    assert time.formula == "Q / I"
    charge, current = time.inputs
    # 3 × 100 Ah × 50 %
    assert charge.value == pytest.approx(150 * AH)
    assert time.value == pytest.approx(charge.value / current.value)


def test_a_converter_that_is_off_charges_nothing():
    off = ("circuits:\n", "conditions:\n  moored: {draw: {dc-dc: 0 %}}\ncircuits:\n")
    made = case("start_side", "moored", a=off)
    bank = made.bank_of("plotter")
    assert made.recharges(bank) == ()
    assert made.charging_current(bank.sources[0]).value == 0.0
