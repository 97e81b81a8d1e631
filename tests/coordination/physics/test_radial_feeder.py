"""A whole radial feeder, worked on paper, put together from the single equations.

Bank: 54.4 V, 12 mΩ (cold, maximum) or 51.2 V, 18 mΩ (hot, minimum). Main: 1.5 m of 70 mm² tinned
class 5; branch A: 4 m of 16 mm²; branch B: 6 m of 2.5 mm² from A's end.
"""

from __future__ import annotations

import pytest

from coordination.physics import adiabatic, batteries, inductance
from coordination.physics import conductors as c

#: (area [m²], length [m], joints, fuse and switch [Ω]) from the bank outwards; resistances by hand.
SECTIONS = (
    (70e-6, 1.5, 0.30e-3 + 4 * 0.03e-3 + 0.20e-3),
    (16e-6, 4.0, 0.80e-3 + 4 * 0.05e-3),
    (2.5e-6, 6.0, 3.0e-3),
)
#: Loop resistance [mΩ] and current [A] at bank, busbar, end of A, end of B, worked on paper.
COLD = ((12.00, 4533), (13.45, 4044), (24.37, 2232), (125.9, 432))
HOT = ((18.00, 2844), (19.68, 2602), (33.33, 1536), (161.9, 316))


def _loops(bank, temperature):
    loop = bank
    yield loop
    for area, length, joints in SECTIONS:
        cold = c.maximum_resistance_per_length(area, "class 5 tinned")
        leg = c.leg_resistance(c.resistance_at_temperature(cold, temperature), length)
        loop += c.loop_resistance(leg, leg) + joints
        yield loop


@pytest.mark.parametrize(
    ("emf", "bank", "temperature", "expected"),
    [(54.4, 12e-3, 20.0, COLD), (51.2, 18e-3, 90.0, HOT)],
    ids=["cold, by hand", "hot, by hand"],
)
def test_loops_and_currents(emf, bank, temperature, expected):
    for loop, (milliohm, amps) in zip(_loops(bank, temperature), expected, strict=True):
        assert loop * 1e3 == pytest.approx(milliohm, abs=0.05 if milliohm > 100 else 0.005)
        assert batteries.short_circuit_current(emf, loop) == pytest.approx(amps, abs=0.6)


def test_time_constant_of_branch_a():
    """1.5 m of 0.465 and 4 m of 0.542 µH/m are 2.87 µH; over 24.37 mΩ 0.12 ms (by hand)."""
    henry = inductance.loop_inductance(0.465e-6, 1.5) + inductance.loop_inductance(0.542e-6, 4.0)
    assert henry == pytest.approx(2.87e-6, abs=5e-9)
    assert inductance.time_constant(henry, 24.37e-3) * 1e3 == pytest.approx(0.12, abs=5e-3)


def test_withstand_of_branch_a():
    limit = adiabatic.adiabatic_limit(16e-6, 143e6)
    assert limit == pytest.approx(5.235e6, abs=500)
    assert adiabatic.time_to_limit(limit, 2232.0) == pytest.approx(1.05, abs=5e-3)
