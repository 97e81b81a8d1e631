"""All of the margins: what is unproven and would settle, then every input, in so many checks."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from coordination.margins.answer import Told
from coordination.margins.probe import Probe, Spent
from coordination.margins.settling import Settled, settled
from coordination.margins.survey import Scope, margins_of
from coordination.margins.unknowns import Datum, missing_data, only_together

if TYPE_CHECKING:
    from coordination.model import System
    from coordination.rules.finding import Finding, Findings
    from coordination.rules.pack import Packs


def margins_told(
    system: System,
    packs: Packs,
    judged: Callable[[System, Packs], Findings],
    scope: Scope = Scope(),  # noqa: B008
    limit: int | None = None,
) -> Told:
    """Where single inputs flip verdicts, and what would settle what is unproven.

    judged -- the findings of a system by some packs
    limit  -- the most checks; what they do not reach is named in the answer
    Raises BadInput where the system cannot be judged as it stands.
    """
    found = judged(system, packs)
    probe = Probe(judged, packs, limit)
    open_ones = [each for each in found.findings if _counts(each, scope)]
    margins = margins_of(system, packs, found, probe, scope)
    unknowns = tuple(_settled(each, system, probe) for each in missing_data(open_ones))
    margins = margins._replace(checks=probe.checks, seconds=probe.seconds)
    return Told(margins, unknowns, only_together(open_ones), scope.subject)


def _counts(finding: Finding, scope: Scope) -> bool:
    if scope.subject is not None and finding.subject != scope.subject:
        return False
    return scope.rule is None or scope.rule in (finding.rule, finding.rule.partition("/")[2])


def _settled(datum: Datum, system: System, probe: Probe) -> Settled:
    try:
        return settled(datum, system, probe)
    except Spent:
        return Settled(datum, None, (), "was not tried: the allowed checks were used up")
