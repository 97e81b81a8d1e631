"""Run time, charging and the AC side: the trade's known figures, and what must always hold.

`TRADE` is common practice: figures that people in the trade carry in their heads, with no document
behind them. Each is set beside what the equations give, within what the saying leaves open.
"""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coordination.errors import OutOfRange
from coordination.physics import charging, energy, loads, peukert, shore

HOUR = AH = 3600.0


def _run(amp_hours, depth, amperes):
    """Hours that a battery lasts."""
    return energy.run_time(energy.usable_charge(amp_hours * AH, depth, 1.0), amperes) / HOUR


#: (what is said, least, most, what the equations give); common practice, no source.
TRADE = [
    ("a 12 V inverter draws ten times its 120 V amperes, without its losses",
     9.0, 11.0, loads.equipment_current(1200.0, 1.0, 12.0) / shore.ac_current(1200.0, 120.0, 1.0)),
    ("... and its losses on top: about eleven to twelve times",
     10.5, 12.5,
     loads.equipment_current(1200.0, 0.87, 12.0) / shore.ac_current(1200.0, 120.0, 1.0)),
    ("a 100 A charger at 12 V draws 12 A to 15 A at 120 V: a good one",
     12.0, 15.0, shore.charger_input_current(14.2, 100.0, 0.92, 120.0, 1.0)),
    ("a 100 A charger at 12 V draws 12 A to 15 A at 120 V: a poor one",
     12.0, 15.0, shore.charger_input_current(14.4, 100.0, 0.85, 120.0, 0.97)),
    ("3,000 Wh at 12.8 V give 122 A for about 1 h 50 min",
     1.75, 1.95, _run(3000.0 / 12.8, 0.95, 122.0)),
    ("3,000 Wh at 12.8 V give 11 A for about 20 h",
     19.0, 21.5, _run(3000.0 / 12.8, 0.95, 11.0)),
    ("460 Ah at 80 % give 14.2 A for 26 h", 25.5, 26.5, _run(460.0, 0.80, 14.2)),
    ("280 Ah at 85 % give 11.5 A for 20.7 h", 20.65, 20.75, _run(280.0, 0.85, 11.5)),
    ("70 A at 28.4 V take 9.6 A at 230 V", 9.55, 9.65,
     shore.charger_input_current(28.4, 70.0, 0.9, 230.0, 1.0)),
    ("9.6 A, 2 kW and 1 kW at 230 V are 22.6 A", 22.5, 22.7,
     shore.charger_input_current(28.4, 70.0, 0.9, 230.0, 1.0)
     + shore.ac_current(2000.0, 230.0, 1.0) + shore.ac_current(1000.0, 230.0, 1.0)),
    ("galley and heater on a 16 A cord leave 2.95 A", 2.9, 3.0,
     16.0 - shore.ac_current(2000.0, 230.0, 1.0) - shore.ac_current(1000.0, 230.0, 1.0)),
    ("a 2000 W inverter takes 207 A at 11.0 V, 178 A at 12.8 V", 206.0, 207.5,
     loads.equipment_current(2000.0, 0.88, 11.0)),
    ("an inverter of 3 kVA takes 152 A at 22 V", 151.0, 152.5,
     loads.equipment_current(3000.0, 0.9, 22.0)),
]  # fmt: skip


@pytest.mark.parametrize(("saying", "least", "most", "found"), TRADE, ids=[t[0] for t in TRADE])
def test_what_the_trade_knows(saying, least, most, found):
    assert least <= found <= most, saying


@pytest.mark.parametrize(
    ("amperes", "hours"),
    [(5.0, 20.0), (10.0, 8.706), (20.0, 3.789), (50.0, 1.262)],
)
def test_peukert_by_hand(amperes, hours):
    """20 h × (5 / I)^1.2: 2^-1.2 = 0.43528, 4^-1.2 = 0.18946, 10^-1.2 = 0.063096."""
    found = peukert.peukert_time(100.0 * AH, 20.0 * HOUR, amperes, 1.2) / HOUR
    assert found == pytest.approx(hours, rel=5e-4)


amperes = st.floats(0.1, 1000.0)
amp_seconds = st.floats(1e3, 1e7)
share = st.floats(0.05, 1.0)


@given(amp_seconds, amp_seconds, share, share, amperes)
def test_more_capacity_never_lasts_shorter(one, other, depth, factor, current):
    small, large = sorted((one, other))
    charges = [energy.usable_charge(c, depth, factor) for c in (small, large)]
    times = [energy.run_time(charge, current) for charge in charges]
    assert times[0] <= times[1]


@given(amp_seconds, st.floats(3600.0, 400_000.0), amperes, amperes, st.floats(1.0, 1.6))
def test_more_current_never_lasts_longer_on_lead(capacity, hours, one, other, exponent):
    low, high = sorted((one, other))
    slow = peukert.peukert_time(capacity, hours, low, exponent)
    assert peukert.peukert_time(capacity, hours, high, exponent) <= slow * (1 + 1e-12)


@given(amp_seconds, st.floats(3600.0, 400_000.0), st.floats(1.0, 50.0), st.floats(1.0, 1.6))
def test_lead_never_gives_more_than_its_charge_above_the_rated_current(
    capacity, hours, times, exponent
):
    current = times * capacity / hours
    given_out = current * peukert.peukert_time(capacity, hours, current, exponent)
    assert given_out <= capacity * (1 + 1e-9)


@given(amp_seconds, amperes, share)
def test_what_is_taken_is_what_is_put_back(charge, current, efficiency):
    """Energy balance: charge in × efficiency = charge out."""
    time = charging.bulk_time(charge, current, efficiency)
    assert time * current * efficiency == pytest.approx(charge, rel=1e-9)


@given(st.floats(10.0, 60.0), amperes, share, st.floats(100.0, 250.0), share)
def test_a_charger_gives_back_what_it_takes_less_its_losses(volts, current, eta, mains, factor):
    taken = shore.charger_input_current(volts, current, eta, mains, factor)
    assert taken * mains * factor * eta == pytest.approx(volts * current, rel=1e-9)
    back = shore.charger_output_current(taken, mains, factor, eta, volts)
    assert back == pytest.approx(current, rel=1e-9)


@given(st.floats(10.0, 30.0), st.floats(10.0, 30.0), st.floats(1e-4, 1.0))
def test_current_flows_from_the_higher_voltage_only(one, other, ohms):
    assert charging.driven_current(one, other, ohms) * ohms == pytest.approx(max(one - other, 0.0))


@given(amperes, amperes, st.floats(1.0, 1e5))
def test_a_dying_current_reaches_the_limit_then(current, limit, tau):
    from math import exp

    time = charging.time_above(current, limit, tau)
    assert current * exp(-time / tau) <= max(limit, current) * (1 + 1e-9)
    if current > limit:
        assert current * exp(-time / tau) == pytest.approx(limit, rel=1e-6)


@pytest.mark.parametrize(
    "call",
    [
        lambda: energy.usable_charge(0.0, 0.8, 1.0),
        lambda: energy.usable_charge(1.0, 1.1, 1.0),
        lambda: energy.run_time(1.0, 0.0),
        lambda: peukert.peukert_time(1.0, 1.0, 1.0, 0.9),
        lambda: charging.bulk_time(1.0, 1.0, 0.0),
        lambda: charging.driven_current(27.0, 25.0, 0.0),
        lambda: charging.equalising_time_constant(1.0, 0.0, 1.0, 1.0, 1.0),
        lambda: charging.time_above(1.0, 0.0, 1.0),
        lambda: shore.charger_input_current(14.0, 10.0, 1.1, 230.0, 1.0),
        lambda: shore.ac_current(100.0, 0.0, 1.0),
        lambda: shore.continuous_limit(16.0, 1.2),
        lambda: energy.run_time(float("nan"), 1.0),
    ],
)
def test_out_of_range(call):
    with pytest.raises(OutOfRange):
        call()
