"""`fusewright compare`: what a change does, from two sides to what differs between them."""

from __future__ import annotations

import json
import os
from typing import NamedTuple

from coordination.checking import Request, findings_of
from coordination.cli.output import columns, emit, is_terminal, speaks_unicode
from coordination.comparison import Comparison, Side, compared, side_of_run
from coordination.comparison.kept import kept_side
from coordination.errors import BadInput, Problem


class Shape(NamedTuple):
    """How the answer is printed."""

    form: str
    everything: bool
    width: int | None


def compare_files(old: Request, new: Request, threshold: str, shape: Shape) -> int:
    """Print what differs; gives 0, 1 or 3. Raises BadInput, CatalogueError."""
    share = _threshold(threshold)
    comparison = compared(_side(old, new), _side(new, old), share)
    emit(_worded(comparison, shape))
    return comparison.exit_status


def with_its_seal(request: Request) -> Request:
    """The seal of the file, to compare it with. Raises BadInput: it has none."""
    from coordination.sealing import seal_path

    path = seal_path(request.file)
    if not os.path.lexists(path):
        what = "there is nothing to compare it with: no second file, and it has no seal"
        ways = "OLD NEW, --against-catalogue, --against-edition, or a seal beside the file"
        raise BadInput((Problem(request.file, 0, 0, what, ways),))
    return request._replace(file=path)


def _side(request: Request, other: Request) -> Side:
    kept = kept_side(request.file)
    return kept or side_of_run(findings_of(request), _label(request, other))


def _label(request: Request, other: Request) -> str:
    """What of the request tells this side from the other."""
    words = []
    if request.catalogue != other.catalogue:
        words.append(f"catalogue {request.catalogue or 'by default'}")
    own = [each for each in request.packs if each not in other.packs]
    if own:
        words.append(f"with {', '.join(own)}")
    return ", ".join(words)


def _threshold(text: str) -> float:
    from catalogue.quantities import QuantityError, parse

    try:
        share = parse(text, "ratio")
    except QuantityError as error:
        raise BadInput((Problem("--threshold", 0, 0, error.message, "1 %"),)) from error
    if not 0.0 <= share < 1.0:
        raise BadInput((Problem("--threshold", 0, 0, f"{text} is out of range", "0 % to 99 %"),))
    return share


def _worded(comparison: Comparison, shape: Shape) -> str:
    from coordination.comparison.answer import comparison_answer
    from coordination.comparison.as_text import comparison_markdown, comparison_text
    from coordination.report.colour import paint_for

    if shape.form == "json":
        unicode = speaks_unicode()
        return json.dumps(comparison_answer(comparison), indent=2, ensure_ascii=not unicode) + "\n"
    if shape.form == "markdown":
        return comparison_markdown(comparison, everything=shape.everything)
    paint = paint_for(is_terminal(), os.environ)
    return comparison_text(comparison, columns(shape.width), paint, everything=shape.everything)
