"""`fusewright shore`: what each inlet carries, the input limit to set, inverters' outputs."""

from __future__ import annotations

import os

from coordination.checking import Request, prepare, studies_of
from coordination.cli.output import columns, emit, is_terminal, speaks_unicode


def tell_shore(request: Request, format: str, steps: bool, width: int | None) -> int:
    """Print what there is to say of every condition; gives 0. Raises BadInput, CatalogueError.

    steps -- with the whole derivation of every figure
    """
    system, packs = prepare(request)
    studies = studies_of(request, system, packs)
    if format == "json":
        import json

        from coordination.report.shore_answer import shore_answer

        answer = shore_answer(studies, system)
        emit(json.dumps(answer, ensure_ascii=not speaks_unicode(), allow_nan=False) + "\n")
        return 0
    from coordination.report.colour import paint_for
    from coordination.report.shore import shore_report

    paint = paint_for(is_terminal(), os.environ)
    emit(shore_report(studies, columns(width), paint, steps=steps))
    return 0
