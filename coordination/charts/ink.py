"""Where on a sheet something is drawn: a grid of cells, for labels that look for a free place."""

from __future__ import annotations

from itertools import pairwise
from math import hypot
from typing import Any

import numpy as np
from matplotlib.axes import Axes

#: Width of a cell [pt].
CELL = 2.0
#: A leader may touch what is drawn this near to its own start [pt].
START = 5.0
#: Longest line that is followed [pt]; what reaches further lies outside the sheet.
LONGEST_LINE = 1e5

#: Left, bottom, right, top [pt].
Box = tuple[float, float, float, float]


def _summed(cells: Any) -> Any:
    """Sums over all cells to the left of and below each, so that a box is four look-ups."""
    sums = np.zeros((cells.shape[0] + 1, cells.shape[1] + 1), dtype=int)
    sums[1:, 1:] = cells.cumsum(axis=0).cumsum(axis=1)
    return sums


class Ink:
    """The lines of a chart as cells of its sheet."""

    def __init__(self, axes: Axes) -> None:
        frame = axes.get_window_extent()
        self._left, self._bottom = frame.x0, frame.y0
        self._wide, self._high = int(frame.width / CELL) + 1, int(frame.height / CELL) + 1
        self._cells = np.zeros((self._wide, self._high), dtype=int)
        for line in axes.get_lines():
            shown = line.get_transform().transform(np.asarray(line.get_xydata(), dtype=float))
            for start, end in pairwise(shown):
                self._draw(start, end)
        self._lines, self._bands = _summed(self._cells), _summed(self._shaded(axes))

    def covered(self, boxes: Any) -> tuple[Any, Any]:
        """Cells in each of the boxes (rows of left, bottom, right, top) with a line, in a band."""
        cells = (boxes - (self._left, self._bottom) * 2) // CELL
        left, bottom, right, top = cells.astype(int).T
        left, right = (np.clip(each, 0, self._wide) for each in (left, right + 1))
        bottom, top = (np.clip(each, 0, self._high) for each in (bottom, top + 1))
        lines, bands = (
            sums[right, top] - sums[left, top] - sums[right, bottom] + sums[left, bottom]
            for sums in (self._lines, self._bands)
        )
        return lines, bands

    def along(self, start: tuple[float, float], end: tuple[float, float]) -> int:
        """Cells with something drawn on a straight way, those near its start left out."""
        length = hypot(end[0] - start[0], end[1] - start[1])
        found, far = 0, START
        while far < length:
            share = far / length
            cell = self._cell(
                start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share
            )
            found += int(self._inside(*cell) and self._cells[cell])
            far += CELL
        return found

    def _shaded(self, axes: Axes) -> Any:
        cells = np.indices((self._wide, self._high))
        centres = cells.reshape(2, -1).T * CELL + CELL / 2
        centres += (self._left, self._bottom)
        found = np.zeros(len(centres), dtype=bool)
        for patch in axes.patches:
            outline = patch.get_transform().transform_path(patch.get_path())
            low, high = np.nanmin(outline.vertices, axis=0), np.nanmax(outline.vertices, axis=0)
            near = np.flatnonzero(np.all((centres >= low) & (centres <= high), axis=1))
            found[near] |= outline.contains_points(centres[near])
        return found.reshape(self._wide, self._high).astype(int)

    def _draw(self, start: Any, end: Any) -> None:
        length = float(np.hypot(*(end - start)))
        if not length < LONGEST_LINE:
            return
        shares = np.linspace(0.0, 1.0, int(length / CELL * 2) + 2)[:, None]
        for x, y in start + (end - start) * shares:
            cell = self._cell(x, y)
            if self._inside(*cell):
                self._cells[cell] = 1

    def _cell(self, x: float, y: float) -> tuple[int, int]:
        return int((x - self._left) // CELL), int((y - self._bottom) // CELL)

    def _inside(self, wide: int, high: int) -> bool:
        return 0 <= wide < self._wide and 0 <= high < self._high
