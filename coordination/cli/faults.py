"""`fusewright faults`: the table of prospective currents and voltages of a system file."""

from __future__ import annotations

import os

from coordination.checking import Request, prepare, studies_of
from coordination.cli.output import columns, emit, is_terminal


def fault_table(request: Request, width: int | None) -> int:
    """Print the tables of every condition; gives 0. Raises BadInput, CatalogueError."""
    from coordination.report.colour import paint_for
    from coordination.report.faults import faults_report

    system, packs = prepare(request)
    studies = studies_of(request, system, packs)
    emit(faults_report(studies, columns(width), paint_for(is_terminal(), os.environ)))
    return 0
