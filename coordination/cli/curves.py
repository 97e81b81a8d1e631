"""`fusewright curves`: a time-current chart of the devices on a path, as a file."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from coordination.checking import Request, known_word, prepare, studies_of
from coordination.cli.output import emit
from coordination.cli.written import format_of, known_language, today, write_whole
from coordination.errors import BadInput, Problem
from coordination.languages.files import language
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.charts import Path as ChartPath

FORMATS = ("svg", "png", "pdf")
NORMAL = "normal"


def draw_curves(request: Request, names: Sequence[str], output: str, code: str = "en") -> int:
    """Write the chart; gives 0. Raises BadInput, CatalogueError, OSError."""
    format = format_of(output, FORMATS, "a picture")
    words = language(known_language(code))
    picture = _drawing()
    system, packs = prepare(request)
    condition = request.condition or NORMAL
    study = studies_of(request._replace(condition=condition), system, packs)[condition]
    from coordination.charts import chart_of
    from coordination.charts.translated import in_language

    chart = chart_of(study, _path(study, names, request.file), today())
    write_whole(output, picture(in_language(chart, words), format, words))
    emit(f"{clean(output)} is written: {chart.title}\n")
    return 0


def _drawing() -> Any:
    """What draws. Raises BadInput where the drawing library is not installed."""
    try:
        from coordination.charts.drawing import picture
    except ModuleNotFoundError as error:
        what = f"charts need {error.name}, which is not installed"
        allowed = "pip install 'fusewright[charts]'"
        raise BadInput((Problem("fusewright curves", 0, 0, what, allowed),)) from None
    return picture


def _path(study: Any, names: Sequence[str], file: str) -> ChartPath:
    """The path asked for, the one of the worst pair, or the deepest. Raises BadInput."""
    from coordination.charts import path_of
    from coordination.charts.paths import deepest, names_of, worst_pair

    if not names:
        return worst_pair(study) or deepest(study)
    for name in names:
        known_word("circuit, device or equipment", name, names_of(study), file)
    return path_of(study, names)
