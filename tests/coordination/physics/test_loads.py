"""Design currents by hand, voltage drops against worked examples in print."""

from __future__ import annotations

import pytest

from coordination.errors import OutOfRange
from coordination.physics import loads
from coordination.physics.conductors import awg_area, awg_number, loop_resistance

CMIL = 5.067075e-10
#: Usual North American figures: ohm circular mils per foot, in ohm metres.
K_10_75 = 10.75 * CMIL / 0.3048
K_11 = 11.0 * CMIL / 0.3048
TRADE_SIZES = ["18", "16", "14", "12", "10", "8", "6", "4", "3", "2", "1", "1/0", "2/0"]


def _printed(published, case):
    return next(row for row in published("voltage_drop") if row.text("case") == case)


def _least_gauge(area):
    return next(s for s in TRADE_SIZES if awg_area(awg_number(s)) >= area)


def test_small_craft_formula(published):
    """Printed 0.38 V; its own equation gives 0.385 V, and annealed copper at 20 °C 0.405 V."""
    row = _printed(published, "drop-12")
    by_its_equation = loads.voltage_drop(1.6, 0.0164e-6 * 22.0 / 1.5e-6)
    assert by_its_equation == pytest.approx(0.385, abs=5e-4)
    assert by_its_equation == pytest.approx(row["printed"], abs=0.01)
    assert loads.voltage_drop(1.6, 0.017241e-6 * 22.0 / 1.5e-6) == pytest.approx(0.405, abs=5e-4)


def test_two_wires_of_a_hundred_feet(published):
    row = _printed(published, "drop-13")
    each = 1.02e-3 * 100.0  # Ω/ft × ft
    drop = loads.voltage_drop(10.0, loop_resistance(each, each))
    assert drop == pytest.approx(row["printed"], abs=row.half_digit("printed"))


def test_same_by_the_circular_mil_constant(published):
    """Printed 2.11 V; 11 × 10 × 200 / 10400 is 2.115 V: the page cut the digit off."""
    row = _printed(published, "drop-14")
    drop = loads.voltage_drop(10.0, K_11 * 200.0 * 0.3048 / (10400 * CMIL))
    assert drop == pytest.approx(2.115, abs=5e-4)
    assert drop == pytest.approx(row["printed"], abs=0.0101)


@pytest.mark.parametrize(
    ("case", "current", "feet", "drop", "cmil"),
    [("drop-15", 10.0, 21.0, 1.2, 1881), ("drop-16", 45.0, 40.0, 1.2, 16125)],
)
def test_size_charts(published, case, current, feet, drop, cmil):
    area = loads.drop_area(current, feet * 0.3048, drop, K_10_75)
    assert area / CMIL == pytest.approx(cmil, abs=0.5)
    assert _least_gauge(area) == _printed(published, case).text("printed")


def test_size_chart_where_ampacity_governs(published):
    """Printed 6 AWG: the drop alone wants 8 AWG, but that carries only 80 A of 100 A."""
    area = loads.drop_area(100.0, 10.0 * 0.3048, 0.03 * 24.0, K_10_75)
    assert area / CMIL == pytest.approx(14931, abs=0.5)
    assert _least_gauge(area) == "8"
    carries = {r.text("size"): r["ampacity_a"] for r in published("marine_ampacity")
               if r["insulation_c"] == 105}
    chosen = next(s for s in TRADE_SIZES if carries[s] >= 100 and awg_area(awg_number(s)) >= area)
    assert chosen == _printed(published, "drop-17").text("printed")


def test_inverter_at_its_lowest_voltage():
    # By hand: 2000 W / (0.88 × 11.0 V) = 206.6 A; at 12.8 V it would be 177.6 A.
    assert loads.equipment_current(2000.0, 0.88, 11.0) == pytest.approx(206.6, abs=0.05)
    assert loads.equipment_current(2000.0, 0.88, 12.8) == pytest.approx(177.6, abs=0.05)


@pytest.mark.parametrize("efficiency", [0.0, 1.01, 90.0, -0.5, float("nan")])
def test_no_such_efficiency(efficiency):
    with pytest.raises(OutOfRange, match="efficiency"):
        loads.equipment_current(1000.0, efficiency, 12.0)


def test_nothing_drawn_is_no_error():
    assert loads.equipment_current(0.0, 0.9, 12.0) == 0.0
    assert loads.converter_input_current(0.0, 14.4, 0.9, 12.0) == 0.0
