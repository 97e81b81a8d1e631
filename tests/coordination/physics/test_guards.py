"""Numbers outside an equation's range are refused by name, NaN and infinity always."""

from __future__ import annotations

import pytest

from coordination.errors import OutOfRange
from coordination.physics import guards

NEVER = [float("nan"), float("inf"), float("-inf")]


@pytest.mark.parametrize("value", [0.0, -0.0, -1e-300, *NEVER])
def test_positive(value):
    with pytest.raises(OutOfRange, match=r"area = .* must be positive"):
        guards.require_positive(length=1.0, area=value)


@pytest.mark.parametrize("value", [-1e-300, *NEVER])
def test_not_negative(value):
    with pytest.raises(OutOfRange, match="zero or more"):
        guards.require_not_negative(drop=value)


def test_zero_is_not_negative():
    guards.require_not_negative(drop=0.0)


@pytest.mark.parametrize("value", [-0.001, 1.001, *NEVER])
def test_within(value):
    with pytest.raises(OutOfRange, match=r"within 0 \.\.\. 1"):
        guards.require_within(0.0, 1.0, efficiency=value)


@pytest.mark.parametrize("value", [0, 0.5, 1.5, -2, *NEVER])
def test_count(value):
    with pytest.raises(OutOfRange, match="whole number"):
        guards.require_count(runs=value)


@pytest.mark.parametrize("value", [-273.15, -300.0, *NEVER])
def test_temperature(value):
    with pytest.raises(OutOfRange, match=r"above -273\.15"):
        guards.require_temperature(ambient=value)


def test_refusal_carries_its_parts():
    with pytest.raises(OutOfRange) as caught:
        guards.require_positive(area=-1.0)
    assert (caught.value.name, caught.value.value, caught.value.bound) == ("area", -1.0, "positive")
