"""Warming in an overload against rows worked from published ampacities, and hand calculations."""

from __future__ import annotations

import pytest

from coordination.physics.overload import overload_temperature, warming_time
from coordination.physics.temperature import load_temperature

#: IEC 60364-5-52 ampacities, PVC, method C; tau = 3.45 S² 40 / (rho_70 I_z²), rho_70 = 2.0628e-8
#: by hand: 1.5 mm² 3.45e6 × 2.25e-12 × 40 / (2.0628e-8 × 380.25) = 39.6 s.
ROWS = [(1.5, 19.5, 40), (2.5, 27.0, 57), (4.0, 36.0, 83), (6.0, 46.0, 114)]


@pytest.mark.parametrize(("area", "ampacity", "seconds"), ROWS)
def test_time_constant_of_published_ampacities(
    area: float, ampacity: float, seconds: float
) -> None:
    assert warming_time(area * 1e-6, ampacity, 30.0, 70.0) == pytest.approx(seconds, abs=0.5)


def test_it_warms_at_first_as_if_no_heat_escaped() -> None:
    # 2.5 mm² at 70 °C, 270 A: I² rho / (Qc S²), rho at 70 °C = 1.7241e-8 × 304.5 / 254.5:
    # 72900 × 2.0628e-8 / (3.45e6 × 6.25e-12) = 69.74 K/s; what escapes at 70 °C: 40 K / 57.35 s
    tau = warming_time(2.5e-6, 27.0, 30.0, 70.0)
    steady = load_temperature(270.0, 27.0, 30.0, 70.0, 30.0)
    rise = overload_temperature(steady, 70.0, tau, 0.001) - 70.0
    assert rise == pytest.approx(0.06974 - 0.000697, rel=1e-3)


def test_it_ends_at_the_steady_temperature() -> None:
    assert overload_temperature(130.0, 70.0, 60.0, 6000.0) == pytest.approx(130.0)
