"""Lays drawn pieces on sheets: side by side in rows, rows below each other, in their order."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from coordination.diagram.block import Layout

#: Between pieces on a sheet [px].
APART = 34.0


class Placed(NamedTuple):
    """Where a piece's upper left corner lies on its sheet's drawing [px]."""

    block: int
    x: float
    y: float


def packed(blocks: Sequence[Layout], room: tuple[float, float]) -> tuple[tuple[Placed, ...], ...]:
    """For each sheet the blocks on it, by their place in the order."""
    sheets: list[list[Placed]] = []
    x = y = row = 0.0
    for number, block in enumerate(blocks):
        if sheets and x + block.width <= room[0] and y + max(row, block.height) <= room[1]:
            row = max(row, block.height)
        elif sheets and y + row + APART + block.height <= room[1] and block.width <= room[0]:
            x, y, row = 0.0, y + row + APART, block.height
        else:
            sheets.append([])
            x, y, row = 0.0, 0.0, block.height
        sheets[-1].append(Placed(number, x, y))
        x += block.width + APART
    return tuple(tuple(each) for each in sheets)
