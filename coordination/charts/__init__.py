"""Time-current charts: the devices of a path on one sheet, as SVG, PNG or PDF.

`chart_of` is the stage from a study to what the sheet shows, `picture` from there to a file. The
drawing library is imported by `drawing` and what only that imports; it is an extra, `charts`.
"""

from coordination.charts.chart import Chart
from coordination.charts.contents import chart_of
from coordination.charts.paths import Path, deepest, path_of

__all__ = ["Chart", "Path", "chart_of", "deepest", "path_of"]
