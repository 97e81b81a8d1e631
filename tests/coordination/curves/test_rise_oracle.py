"""Melting while the current rises, integrated by scipy, beside the closed form and its inverse."""

from __future__ import annotations

from math import exp
from random import Random

import pytest
from scipy.integrate import quad, solve_ivp

from coordination.physics.rise import heating_integral, time_to_heat

CASES = 150


def random_rise(seed: int) -> tuple[float, float, float]:
    """Final current [A], time constant [s], time in time constants [1]."""
    random = Random(seed)
    return (
        10 ** random.uniform(1.5, 4.5),
        10 ** random.uniform(-5, -1.5),
        10 ** random.uniform(-2.5, 2),
    )


@pytest.mark.parametrize("seed", range(CASES))
def test_heating_integral_is_the_integral_of_the_squared_current(seed: int) -> None:
    current, tau, ratio = random_rise(seed)
    squared, _ = quad(lambda x: (1 - exp(-x)) ** 2, 0.0, ratio, epsabs=0, epsrel=1e-10, limit=200)
    expected = current**2 * tau * squared
    assert heating_integral(current, tau, ratio * tau) == pytest.approx(expected, rel=1e-7)


@pytest.mark.parametrize("seed", range(CASES))
def test_an_element_melts_when_its_energy_is_reached(seed: int) -> None:
    """The element as a differential equation with an event; the loop as L di/dt = E − R i."""
    current, tau, _ = random_rise(seed)
    energy = current**2 * tau * 10 ** Random(seed + 1000).uniform(-4, 2)

    def loop(_: float, state: list[float]) -> list[float]:
        return [1.0 - state[0], state[0] ** 2]

    def melted(_: float, state: list[float]) -> float:
        return state[1] - energy / (current**2 * tau)

    melted.terminal = True  # type: ignore[attr-defined]
    end = energy / (current**2 * tau) + 3.0
    step = max(0.2, end / 50)
    found = solve_ivp(
        loop, (0.0, end), [0.0, 0.0], events=melted, rtol=1e-9, atol=1e-14, max_step=step
    )
    seconds = found.t_events[0][0] * tau
    assert time_to_heat(current, tau, energy) == pytest.approx(seconds, rel=1e-5)


def test_a_rise_never_changes_who_melts_first() -> None:
    """Two elements in one loop: less energy melts sooner, however slowly the current comes."""
    for seed in range(CASES):
        current, tau, _ = random_rise(seed)
        random = Random(seed + 5000)
        energy = current**2 * tau * 10 ** random.uniform(-3, 1)
        less = energy * random.uniform(0.1, 0.99)
        assert time_to_heat(current, tau, less) < time_to_heat(current, tau, energy)
