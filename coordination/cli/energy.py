"""`fusewright energy`: usable charge, run time, charging, sharing and equalising of banks."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

from coordination.checking import Request, known_word, prepare, studies_of
from coordination.cli.output import columns, emit, is_terminal, speaks_unicode
from coordination.errors import BadInput, Problem
from coordination.report.energy_rows import Measured, energy_rows

if TYPE_CHECKING:
    from coordination.model import System


def tell_energy(
    request: Request, measured: tuple[str, ...], format: str, steps: bool, width: int | None
) -> int:
    """Print what there is to say of every condition; gives 0. Raises BadInput, CatalogueError.

    steps -- with the whole derivation of every figure
    """
    system, packs = prepare(request)
    currents = _currents(measured, system)
    rows = energy_rows(studies_of(request, system, packs), currents)
    if format == "json":
        import json

        from coordination.report.energy_answer import energy_answer

        answer = energy_answer(rows, system.name, system.file)
        emit(json.dumps(answer, ensure_ascii=not speaks_unicode(), allow_nan=False) + "\n")
        return 0
    from coordination.report.colour import paint_for
    from coordination.report.energy import energy_report

    emit(energy_report(rows, columns(width), paint_for(is_terminal(), os.environ), steps=steps))
    return 0


def _currents(texts: tuple[str, ...], system: System) -> tuple[Measured, ...]:
    """The currents of the command line. Raises BadInput, with every one that is none."""
    problems: list[Problem] = []
    found: list[Measured] = []
    for text in texts:
        try:
            found.append(_current(text, system))
        except BadInput as error:
            problems += error.problems
    if problems:
        raise BadInput(tuple(problems))
    return tuple(found)


def _current(text: str, system: System) -> Measured:
    """ "14.2 A" or "house bank=14.2 A". Raises BadInput."""
    from catalogue.quantities import QuantityError, parse

    name, _, written = text.rpartition("=")
    if name:
        batteries = [each.name for each in system.sources.values() if each.part is not None]
        known_word("battery", name, batteries, "--measured")
    try:
        current = parse(written, "current")
    except QuantityError as error:
        allowed = error.hint or "14.2 A, or BATTERY=14.2 A"
        raise BadInput((Problem("--measured", 0, 0, error.message, allowed),)) from None
    if not 0.0 < current <= 1e6:
        what = f"a measured current is above 0 A: {written.strip()[:20]}"
        raise BadInput((Problem("--measured", 0, 0, what, "14.2 A"),))
    return Measured(name, current, written.strip())
