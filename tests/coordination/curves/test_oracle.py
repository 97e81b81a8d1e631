"""Brute force beside the exact comparison: random pairs on a dense grid of currents, with numpy.

The oracle reads the stated points anew: it knows no corners, no jumps, no early ends. A pair that
it can break at a single current must not be called proven; one called broken must break where told.
"""

from __future__ import annotations

from itertools import pairwise
from random import Random
from typing import Any

import numpy as np
import pytest

from coordination.curves import Boundary, Opening, compare_pair

PAIRS, GRID = 10_500, 500
Array = np.ndarray[Any, np.dtype[np.float64]]


def log_line(points: tuple[tuple[float, float], ...], currents: Array) -> Array:
    """Straight lines in log-log through the points; NaN outside them."""
    if len(points) == 1:
        return np.full_like(currents, points[0][1])
    at, times = np.log(np.array(points)).T
    return np.exp(np.interp(np.log(currents), at, times, left=np.nan, right=np.nan))


def stepped(points: tuple[tuple[float, float], ...], currents: Array) -> Array:
    """The time of the last point passed; NaN below the first."""
    at = np.array([current for current, _ in points])
    times = np.array([np.nan, *(time for _, time in points)])
    return times[np.searchsorted(at, currents, side="right")]


def latest(device: Opening, currents: Array) -> Array:
    """When it has certainly cleared [s]; infinite where never."""
    side, time = device.slowest, np.full_like(currents, np.inf)
    if side.points:
        (first, _), (last, at_last) = side.points[0], side.points[-1]
        read = stepped if side.gates or len(side.points) == 1 else log_line
        inside = (currents >= first) & (currents <= last)
        time[inside] = read(side.points, currents[inside])
        past = currents > last
        time[past] = at_last * (last / currents[past]) ** 2 if side.melts else at_last
    if device.clearing_i2t is not None:
        energy = device.clearing_i2t / currents**2
        time = np.where(energy <= 0.01, np.minimum(time, energy), time)
    return time


def earliest(device: Opening, currents: Array) -> Array:
    """Before when it certainly does not open [s]; 0 where it may at once."""
    side, time = device.fastest, np.zeros_like(currents)
    adiabatic = False
    if side.points:
        (first, at_first), (last, at_last) = side.points[0], side.points[-1]
        time[currents < first] = at_first
        inside = (currents >= first) & (currents <= last)
        if side.gates:
            time[inside] = [gate_time(side.points, each, side.melts) for each in currents[inside]]
        else:
            time[inside] = log_line(side.points, currents[inside])
        adiabatic = side.melts and at_last <= 0.01
        past = currents > last
        if adiabatic:
            time[past] = at_last * (last / currents[past]) ** 2
    if device.melting_i2t is not None:
        energy = device.melting_i2t / currents**2
        past = currents > side.points[-1][0] if side.points else np.ones_like(currents, bool)
        least = np.minimum(time, energy) if adiabatic else energy
        time = np.where(past, np.maximum(least, 0.0), np.maximum(time, energy))
    if device.carries is not None:
        time[currents <= device.carries] = np.inf
    return time


def gate_time(points: tuple[tuple[float, float], ...], current: float, melts: bool) -> float:
    """Of every gate at more current: its time, and what its I²t needs at this current."""
    bounds = [time for at, time in points if at >= current]
    if melts:
        bounds += [
            min(time * (at / current) ** 2, ahead)
            for (_, ahead), (at, time) in pairwise(points)
            if at >= current
        ]
    return max(bounds)


def random_points(random: Random, start: float, slowness: float) -> tuple[tuple[float, float], ...]:
    current, time = start, 10 ** random.uniform(1.0, 3.5) * slowness
    points = [(current, time)]
    for _ in range(random.randint(0, 6)):
        current *= random.uniform(1.05, 2.5)
        time /= random.choice((1.0, random.uniform(1.2, 30.0)))
        points.append((current, max(time, 1e-5)))
    return tuple(points)


def random_device(random: Random, name: str, rating: float) -> Opening:
    gates, melts = random.random() < 0.25, random.random() < 0.8
    fastest = random_points(random, rating * random.uniform(1.0, 1.6), 1.0)
    slowest = random_points(random, rating * random.uniform(1.2, 1.8), random.uniform(2.0, 9.0))
    melting = rating**2 * 10 ** random.uniform(-1.5, 0.7)
    return Opening(
        name,
        Boundary(fastest if random.random() < 0.9 else (), True, gates, melts),
        Boundary(slowest, False, gates, melts),
        melting if melts and random.random() < 0.6 else None,
        melting * random.uniform(1.5, 6.0) if melts and random.random() < 0.6 else None,
        rating if random.random() < 0.5 else None,
    )


def random_pair(seed: int) -> tuple[Opening, Opening, float, float, float, float]:
    random = Random(seed)
    rating = 10 ** random.uniform(0.5, 2.7)
    down = random_device(random, "down", rating)
    up = random_device(random, "up", rating * 10 ** random.uniform(-0.1, 1.6))
    low = down.slowest.points[0][0] * random.choice((1.0, random.uniform(1.0, 5.0)))
    high = low * 10 ** random.uniform(0.0, 2.5)
    share = random.choice((1.0, 1.0, random.uniform(0.2, 1.3)))
    other = random.choice((0.0, random.uniform(0.0, rating)))
    return down, up, low, high, share, other


def grid(low: float, high: float) -> Array:
    return np.unique(np.clip(np.geomspace(low, high, GRID), low, high))


def test_no_pair_called_proven_can_be_broken() -> None:
    told = {"proven": 0, "broken": 0, "unproven": 0}
    for seed in range(PAIRS):
        down, up, low, high, share, other = random_pair(seed)
        result = compare_pair(down, up, low, high, share, other)
        told[result.standing] += 1
        currents = grid(low, high)
        apart = earliest(up, currents * share + other) > latest(down, currents) * (1 - 1e-9)
        if result.standing == "proven":
            assert apart.all(), f"seed {seed}: broken at {currents[~apart][0]:.6g} A"
        elif result.proven_up_to is not None:
            assert apart[currents < result.proven_up_to * (1 - 1e-6)].all(), f"seed {seed}"
    assert min(told.values()) > PAIRS / 20, told


def test_a_pair_called_broken_breaks_where_it_is_told() -> None:
    broken = 0
    for seed in range(PAIRS // 4):
        down, up, low, high, share, other = random_pair(seed)
        result = compare_pair(down, up, low, high, share, other)
        if result.standing != "broken":
            continue
        broken += 1
        cleared = latest(down, np.array([result.worst.current]))[0]
        opens = earliest(up, np.array([result.worst.upstream_current]))[0]
        assert cleared >= opens * (1 - 1e-9), f"seed {seed}"
        assert result.worst.cleared.time == pytest.approx(cleared, rel=1e-6)
        assert result.worst.opens.time == pytest.approx(opens, rel=1e-6)
    assert broken > PAIRS / 80


def test_a_gap_is_told_wherever_the_oracle_finds_one() -> None:
    """Nothing that the oracle separates at every current, with a margin, is left unproven."""
    separated = 0
    for seed in range(PAIRS // 4):
        down, up, low, high, share, other = random_pair(seed)
        currents = grid(low, high)
        if (earliest(up, currents * share + other) > latest(down, currents) * 3.0).all():
            separated += 1
            result = compare_pair(down, up, low, high, share, other)
            narrow = result.first_gap is not None and result.first_gap.current not in (low, high)
            assert result.standing == "proven" or narrow, f"seed {seed}"
    assert separated > PAIRS / 80


def test_the_quick_times_are_those_with_their_basis() -> None:
    for seed in range(1000):
        _, device, low, high, _, _ = random_pair(seed)
        points = (*device.fast_corners(), *device.slow_corners(), low, high, low * 0.5, high * 10)
        for current in points:
            cleared, opens = device.cleared_by(current), device.stays_closed(current)
            assert device.latest(current) == (np.inf if cleared.time is None else cleared.time)
            assert device.soonest(current) == (opens.time or 0.0)
