"""`fusewright curves`: a time-current chart of the devices on a path, as a file."""

from __future__ import annotations

import errno
import os
import stat
import tempfile
from collections.abc import Sequence
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

from coordination.checking import Request, known_word, prepare, studies_of
from coordination.cli.output import emit
from coordination.errors import BadInput, Problem
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.charts import Path as ChartPath

FORMATS = ("svg", "png", "pdf")
NORMAL = "normal"


def draw_curves(request: Request, names: Sequence[str], output: str) -> int:
    """Write the chart; gives 0. Raises BadInput, CatalogueError, OSError."""
    format = _format(output)
    picture = _drawing()
    system, packs = prepare(request)
    condition = request.condition or NORMAL
    study = studies_of(request._replace(condition=condition), system, packs)[condition]
    from coordination.charts import chart_of

    chart = chart_of(study, _path(study, names, request.file), today())
    write_whole(output, picture(chart, format))
    emit(f"{clean(output)} is written: {chart.title}\n")
    return 0


def _format(output: str) -> str:
    """The format that a file's name asks for. Raises BadInput for another."""
    ending = output.rpartition(".")[2].lower() if "." in Path(output).name else ""
    known_word("format of a picture", ending, FORMATS, f"-o {output}")
    return ending


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


def today() -> date:
    """The date on the sheet; SOURCE_DATE_EPOCH [s since 1970] stands for it, if it is set."""
    epoch = os.environ.get("SOURCE_DATE_EPOCH", "")
    if epoch.isascii() and epoch.isdecimal() and len(epoch) < 12:
        return datetime.fromtimestamp(int(epoch), UTC).date()
    return date.today()


def write_whole(output: str, content: bytes) -> None:
    """Write a file that is never there in part; a device or a pipe is written as it is.

    Raises OSError; what was there before is then as it was.
    """
    path = Path(output)
    if path.exists() and not stat.S_ISREG(path.stat().st_mode):
        path.write_bytes(content)
        return
    target = path.resolve()
    if not target.parent.is_dir():
        raise FileNotFoundError(errno.ENOENT, "there is no such folder", output)
    handle, name = tempfile.mkstemp(dir=target.parent, prefix=".fusewright-", suffix=".part")
    part = Path(name)
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(content)
            stream.flush()
            os.fsync(stream.fileno())
        part.chmod(target.stat().st_mode & 0o777 if target.exists() else 0o666 & ~_mask())
        part.replace(target)
    except BaseException:
        part.unlink(missing_ok=True)
        raise


def _mask() -> int:
    """The process's file mode mask, which can only be read by setting it."""
    mask = os.umask(0)
    os.umask(mask)
    return mask
