"""Files that the drawing library makes: the settings and formats of every chart and diagram.

Figures are made without its window machinery, from its built-in defaults whatever the user's own
settings are, so that the same picture gives the same file. What is drawn is for others.
"""

from __future__ import annotations

import warnings
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from io import BytesIO
from typing import Any

import matplotlib
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.figure import Figure

#: What a file of each format says of itself: nothing that changes from one run to the next.
METADATA: Mapping[str, Mapping[str, Any]] = {
    "svg": {"Date": None, "Creator": "Fusewright"},
    "pdf": {"CreationDate": None, "ModDate": None, "Creator": "Fusewright", "Producer": None},
    "png": {"Software": None},
}
FORMATS = tuple(METADATA)

_SETTINGS: dict[str, Any] = {
    "svg.fonttype": "none",
    "svg.hashsalt": "fusewright",
    "pdf.fonttype": 42,
    "font.family": ["DejaVu Sans"],
    "font.size": 8.0,
    "text.hinting": "none",
    "hatch.linewidth": 0.45,
    "axes.linewidth": 0.8,
    "text.usetex": False,
    "text.parse_math": False,
    "path.simplify": False,
}


@contextmanager
def settings() -> Iterator[None]:
    """The drawing library as it comes, with ours on top, and quiet about missing signs."""
    with matplotlib.rc_context(), warnings.catch_warnings():
        # Signs that the font lacks are boxes in a picture; in SVG and PDF the text is there.
        warnings.filterwarnings("ignore", message=".*[Gg]lyph.*")
        matplotlib.rcdefaults()
        parameters: Any = matplotlib.rcParams
        parameters.update(_SETTINGS)
        yield


def blank(width: float, height: float, dots: float) -> Figure:
    """An empty figure [in] with this many dots an inch."""
    figure = Figure(figsize=(width, height), dpi=dots)
    FigureCanvasAgg(figure)
    return figure


def saved(figure: Figure, format: str, dots: float) -> bytes:
    """The figure as a file; asked within `settings`. Raises KeyError for an unknown format."""
    out = BytesIO()
    figure.savefig(out, format=format, dpi=dots, metadata=METADATA[format])
    return out.getvalue()
