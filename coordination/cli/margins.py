"""`fusewright margins`: the value of each input at which a verdict flips."""

from __future__ import annotations

import json
import os

from coordination.checking import Request, judged, known_rules, known_word, prepare
from coordination.cli.explain import names_of
from coordination.cli.output import columns, emit, is_terminal, speaks_unicode


def print_margins(
    request: Request,
    subject: str | None,
    rule: str | None,
    inputs: tuple[str, ...],
    checks: int,
    as_json: bool,
    width: int | None,
) -> int:
    """Print the margins; gives 0. Raises BadInput: no such subject, rule or input."""
    from coordination.margins import margins_answer, margins_told
    from coordination.margins.as_text import margins_report
    from coordination.margins.inputs import inputs_of
    from coordination.margins.survey import Scope
    from coordination.report.colour import paint_for

    system, packs = prepare(request)
    if subject is not None:
        known_word("subject", subject, names_of(system), request.file)
    known_rules((rule,) if rule else (), packs, request.file)
    known = [each.what for each in inputs_of(system)]
    for word in inputs:
        if not any(word in each for each in known):
            known_word("input", word, known, request.file)
    scope = Scope(subject, rule, inputs)
    told = margins_told(
        system, packs, lambda each, some: judged(request, each, some), scope, checks
    )
    if as_json:
        answer = margins_answer(told)
        emit(json.dumps(answer, indent=2, ensure_ascii=not speaks_unicode()) + "\n")
    else:
        emit(margins_report(told, columns(width), paint_for(is_terminal(), os.environ)))
    return 0
