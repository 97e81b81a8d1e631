"""Bridges of a graph, by which what an event parts is found."""


from __future__ import annotations

from coordination.study.outages.cuts import cuts


def test_the_bridges_of_a_graph_drawn_by_hand() -> None:
    #  0 - 1 = 2 - 3   a double branch between 1 and 2; 4 - 5 apart
    found = cuts(6, [(0, 1), (1, 2), (2, 1), (2, 3), (4, 5)])
    assert set(found.behind) == {0, 3, 4}
    sides = found.sides(3)
    assert sides is not None
    _, far, near = sides
    assert [found.order[rank] for run in far for rank in range(*run)] == [3]
    assert sorted(found.order[rank] for run in near for rank in range(*run)) == [0, 1, 2]
    assert found.sides(1) is None


def test_a_long_chain_is_no_deeper_than_the_stack() -> None:
    size = 20_000
    found = cuts(size, [(point, point + 1) for point in range(size - 1)])
    assert len(found.behind) == size - 1
