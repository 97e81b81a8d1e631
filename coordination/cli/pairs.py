"""`fusewright pairs`: which of two devices in series opens first, and up to what current."""

from __future__ import annotations

import os

from coordination.checking import Request, prepare, studies_of
from coordination.cli.output import columns, emit, is_terminal, speaks_unicode


def pair_table(request: Request, format: str, width: int | None) -> int:
    """Print the pairs of every condition; gives 0. Raises BadInput, CatalogueError."""
    from coordination.report.pair_rows import pair_rows

    system, packs = prepare(request)
    rows = {name: pair_rows(each) for name, each in studies_of(request, system, packs).items()}
    if format == "json":
        import json

        from coordination.report.pairs import pairs_answer

        answer = pairs_answer(rows, system.name, system.file)
        ascii_only = not speaks_unicode()
        emit(json.dumps(answer, ensure_ascii=ascii_only, allow_nan=False) + "\n")
        return 0
    if format == "markdown":
        from coordination.report.pairs import pairs_markdown

        emit(pairs_markdown(rows))
        return 0
    from coordination.report.colour import paint_for
    from coordination.report.pairs import pairs_report

    emit(pairs_report(rows, columns(width), paint_for(is_terminal(), os.environ)))
    return 0
