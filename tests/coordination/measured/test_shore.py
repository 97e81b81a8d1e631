"""The shore current that chargers and loads should draw, summed by hand."""

from __future__ import annotations

from math import sqrt
from typing import Any

import pytest

from coordination.measured.record import Charging, Meter, Record, ShoreRecord
from coordination.measured.shore import predicted_shore

CHARGING = Charging(
    current=70.0,
    voltage=28.4,
    efficiency=0.9,
    power_factor=0.95,
    written={"current": "70 A", "voltage": "28.4 V"},
)


def _record() -> Record:
    exact = {"resolution": 0.0, "stated": True}
    return Record(
        file="r.yaml",
        date="2026-03-05",
        voltage=Meter(accuracy=0.0, **exact),
        current=Meter(accuracy=0.0, **exact),
        temperature=Meter(accuracy=0.0),
    )


def _shore(**told: Any) -> ShoreRecord:
    whole = {"voltage": 230.0, "loads": 8.7, "charging": CHARGING} | told
    return ShoreRecord(line=1, current=18.6, **whole)


def test_a_charger_and_a_galley() -> None:
    """28.4 V × 70 A = 1988 W; / 0.9 = 2209 W; / (0.95 × 230 V) = 10.11 A, of which 9.60 A active.

    Most: 8.7 A + 10.11 A. Least: √((8.7 + 9.60)² + 3.16²), the galley being a heater.
    """
    band = predicted_shore(_shore(), _record())
    assert band is not None
    assert band.max == pytest.approx(18.81, abs=0.01)
    assert band.min == pytest.approx(sqrt(18.30**2 + 3.157**2), abs=0.01)


def test_the_meters_widen_it() -> None:
    """± 2 % and 1 A of 70 A, ± 0.5 % and 0.1 V of 28.4 V: 72.4 A × 28.642 V at most."""
    record = Record(
        file="r.yaml",
        date="2026-03-05",
        voltage=Meter(accuracy=0.005),
        current=Meter(accuracy=0.02),
        temperature=Meter(accuracy=2.0),
    )
    band = predicted_shore(_shore(), record)
    assert band is not None
    assert band.max == pytest.approx(8.7 + 72.4 * 28.642 / (0.9 * 0.95 * 230.0), abs=1e-6)
    assert band.min < 18.4


@pytest.mark.parametrize("lacking", ["voltage", "loads", "charging"])
def test_what_is_not_told_is_unknown_and_not_nothing(lacking: str) -> None:
    assert predicted_shore(_shore(**{lacking: None}), _record()) is None
