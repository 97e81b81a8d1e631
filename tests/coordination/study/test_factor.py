"""The elimination and the selected inverse against numpy, from nearly empty to full matrices."""

from __future__ import annotations

from random import Random

import numpy as np
import pytest

from coordination.study import full
from coordination.study.factor import Factor


def _matrix(shunts: list[float], joints: list[tuple[int, int, float]]) -> np.ndarray:
    matrix = np.diag(np.array(shunts))
    for one, other, conductance in joints:
        if one != other:
            matrix[one, one] += conductance
            matrix[other, other] += conductance
            matrix[one, other] -= conductance
            matrix[other, one] -= conductance
    return matrix


@pytest.mark.parametrize("size", [1, 2, 5, 13, 40, 90])
@pytest.mark.parametrize("degree", [1, 3, 8, 200])
def test_inverse_and_solution(size: int, degree: int) -> None:
    chance = Random(size * 1000 + degree)
    shunts = [chance.choice([0.0, 0.0, chance.uniform(1, 500)]) for _ in range(size)]
    shunts[0] = 100.0
    joints = [
        (point, chance.randrange(point), 10 ** chance.uniform(0, 5)) for point in range(1, size)
    ]
    joints += [
        (chance.randrange(size), chance.randrange(size), 10 ** chance.uniform(0, 5))
        for _ in range(size * degree // 2)
    ]
    factor = Factor(shunts, joints)
    expected = np.linalg.inv(_matrix(shunts, joints))
    inverse = factor.inverse()
    for one, other, _ in [*joints, *((p, p, 0.0) for p in range(size))]:
        assert inverse[one][other] == pytest.approx(expected[one, other], rel=1e-9)
        assert inverse[other][one] == pytest.approx(expected[one, other], rel=1e-9)
    currents = [chance.uniform(-100, 100) for _ in range(size)]
    assert factor.solve(currents) == pytest.approx(
        (expected @ np.array(currents)).tolist(), rel=1e-8, abs=1e-8
    )


def test_full_network() -> None:
    """Three junctions, 1 S between each pair, 1 S from the first to ground.

    By hand: seen from the first, 1 Ω. From another: 1 Ω and then 1 Ω beside 1 + 1 Ω, 2/3 Ω.
    """
    units, parts = full.eliminate([[1.0, 1.0], [1.0], []], [1.0, 0.0, 0.0])
    rows = full.invert(units, parts)
    assert rows[0] == pytest.approx([1.0, 1.0, 1.0])
    assert [rows[0][2], rows[1][1], rows[2][0]] == pytest.approx([1.0, 5 / 3, 5 / 3])


def test_piece_without_ground_stays_at_zero() -> None:
    factor = Factor([1.0, 0.0, 0.0], [(1, 2, 5.0)])
    assert factor.solve([3.0, 0.0, 0.0]) == [3.0, 0.0, 0.0]
