"""Where on a sheet something is drawn: a grid of cells, for labels that look for a free place."""

from __future__ import annotations

from itertools import pairwise
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

    def along(self, starts: Any, ends: Any) -> Any:
        """Cells with something drawn on each straight way, those near its start left out."""
        ways = ends - starts
        lengths = np.hypot(ways[:, 0], ways[:, 1])
        far = np.arange(START, max(lengths.max(initial=0.0), START), CELL)
        on_way = far < lengths[:, None]
        shares = far / np.where(lengths > 0, lengths, 1.0)[:, None]
        wide, high = self._cells_at(starts[:, None, :] + ways[:, None, :] * shares[:, :, None])
        there = on_way & self._inside(wide, high)
        found = np.zeros(there.shape, dtype=int)
        found[there] = self._cells[wide[there], high[there]]
        return found.sum(axis=1)

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
        wide, high = self._cells_at(start + (end - start) * shares)
        there = self._inside(wide, high)
        self._cells[wide[there], high[there]] = 1

    def _cells_at(self, points: Any) -> tuple[Any, Any]:
        """Columns and rows of the cells that points lie in; their last axis is (x, y)."""
        cells = ((points - (self._left, self._bottom)) // CELL).astype(int)
        return cells[..., 0], cells[..., 1]

    def _inside(self, wide: Any, high: Any) -> Any:
        return (wide >= 0) & (wide < self._wide) & (high >= 0) & (high < self._high)
