"""Turns the fails that somebody accepted into `waived`; they stay visible, with their numbers.

Nothing but a fail can be waived: what is unproven may hide a fire.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from coordination.model import Waiver
from coordination.rules.finding import Finding
from coordination.rules.problem import RunProblem


def waive(
    findings: Iterable[Finding], waivers: Sequence[Waiver], *, filtered: bool
) -> tuple[list[Finding], tuple[RunProblem, ...]]:
    """The findings with waived fails marked, and a remark for each waiver without effect.

    filtered -- only some rules were asked, so a waiver that matches nothing is no news
    """
    by_key = {(waiver.rule, waiver.subject): waiver for waiver in waivers}
    met: dict[tuple[str, str], str] = {}
    marked = []
    for finding in findings:
        key = (finding.rule, finding.subject)
        if waiver := by_key.get(key):
            met[key] = finding.verdict
            if finding.verdict == "fail":
                finding = finding._replace(verdict="waived", waiver=waiver)
        marked.append(finding)
    remarks = tuple(
        _remark(waiver, met.get((waiver.rule, waiver.subject)))
        for waiver in waivers
        if met.get((waiver.rule, waiver.subject)) != "fail"
        and not (filtered and (waiver.rule, waiver.subject) not in met)
    )
    return marked, remarks


def _remark(waiver: Waiver, verdict: str | None) -> RunProblem:
    about = f"the waiver of {waiver.rule} for {waiver.subject}"
    what = {
        None: f"{about} matches no finding",
        "unproven": f"{about} has no effect: only a fail can be waived, and this is unproven",
    }.get(verdict, f"{about} is not needed: the finding is a {verdict}")
    return RunProblem(
        kind="waiver", what=what, about=waiver.subject, line=waiver.line, incomplete=False
    )
