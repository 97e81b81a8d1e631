"""Bundles and parallel runs."""

from __future__ import annotations

import pytest

from coordination.errors import OutOfRange
from coordination.physics import bundling as b


@pytest.mark.published("iec_grouping")
def test_at_most_the_published_factor(row):
    ours = b.bundle_factor(row["circuits"])
    assert 0.96 * row["factor"] <= ours <= row["factor"], row


def test_beyond_the_last_published_factor():
    # By hand: 20^(-1/3) = 0.3684; 80 pairs are four times as many, so half of it.
    assert b.bundle_factor(80) == pytest.approx(0.1842, abs=5e-5)
    assert b.bundle_factor(21) < b.bundle_factor(20)


def test_two_runs_carry_less_than_twice():
    # By hand: 2 × 2^(-1/3) = 1.5874.
    pairs = b.bundled_pairs(1, 2)
    assert b.installed_ampacity(100.0, b.bundle_factor(pairs), 2) == pytest.approx(158.74, abs=5e-3)


def test_runs_multiply_the_bundle():
    assert b.bundled_pairs(3, 2) == 6


@pytest.mark.parametrize("pairs", [0, -1, 1.5, float("nan"), float("inf")])
def test_no_such_bundle(pairs):
    with pytest.raises(OutOfRange, match="pairs"):
        b.bundle_factor(pairs)
