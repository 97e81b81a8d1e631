"""Asks every pack's rules and keeps the worst answer of each about each subject.

A rule that crashes proves nothing: its subject is unproven and the run says so. Wording is the
report's.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping

from coordination.rules.asking import Asker, Crash, Studied, crash_problem
from coordination.rules.calls import LIMIT, Calls, guarded
from coordination.rules.card import Scope
from coordination.rules.finding import VERDICTS, Finding, Findings
from coordination.rules.inspection import SCOPE
from coordination.rules.pack import Pack, Packs
from coordination.rules.problem import RunProblem
from coordination.rules.rule import Rule
from coordination.rules.scope import scope_finding, scope_of
from coordination.rules.sections import with_sections
from coordination.rules.waive import waive

__all__ = ["Studied", "judge"]


def judge(
    studies: Mapping[str, Studied],
    packs: Packs,
    *,
    only: Collection[str] = (),
    limit: float = LIMIT,
) -> Findings:
    """Every finding of the packs' rules over the studies of one system.

    studies -- condition name to its study; where two conditions are equally bad the first is named
    only    -- rules to ask, "pack/rule" or "rule"; empty: all
    limit   -- how long [s] one rule may take over one subject
    Raises ValueError without a study.
    """
    if not studies:
        raise ValueError("nothing was studied")
    with guarded(limit) as calls:
        run = _Run(studies, calls)
        for pack in packs.packs:
            run.ask(pack, [rule for rule in pack.rules if _wanted(pack, rule, only)])
        findings = _sum_up(run, packs, only)
        return with_sections(findings, run.scopes, calls)


def _wanted(pack: Pack, rule: Rule, only: Collection[str]) -> bool:
    return not only or pack.full_name(rule) in only or rule.card.name in only


class _Run:
    """What comes together while the packs are asked one after another.

    judged -- findings of rules; silent -- what stands in place of a pack outside its scope
    scopes -- pack to its answer; problems -- rules that crashed
    """

    def __init__(self, studies: Mapping[str, Studied], calls: Calls) -> None:
        self.studies = studies
        self.judged: list[Finding] = []
        self.silent: list[Finding] = []
        self.scopes: dict[str, Scope] = {}
        self.problems: list[RunProblem] = []
        self._calls = calls
        self._asker = Asker(calls)

    def ask(self, pack: Pack, rules: list[Rule]) -> None:
        if not rules:
            return
        scope = self.scopes[pack.card.name] = self._scope(pack)
        if not scope.applies:
            condition, study = next(iter(self.studies.items()))
            self.silent.append(scope_finding(pack, scope, study.system, condition))
            return
        for rule in rules:
            self.judged.extend(self._asker.findings(pack, rule, self.studies))
            if crashes := self._asker.crashes:
                self.problems.append(crash_problem(pack, pack.full_name(rule), crashes))

    def _scope(self, pack: Pack) -> Scope:
        try:
            return self._calls(scope_of, pack, self.studies)
        except Exception as error:
            crash = Crash(next(iter(self.studies.values())).system.name, error)
            self.problems.append(crash_problem(pack, f"{pack.card.name}/{SCOPE}", [crash]))
            return Scope(None, "its scope test crashed", (f"rule crashed: {error}",))


def _sum_up(run: _Run, packs: Packs, only: Collection[str]) -> Findings:
    system = next(iter(run.studies.values())).system
    judged, remarks = waive(run.judged, system.waivers, filtered=bool(only))
    findings = sorted((*judged, *run.silent), key=lambda finding: (finding.subject, finding.rule))
    problems = (
        *packs.problems,
        *_network_problems(run.studies),
        *_unknown_rules(packs, only),
        *sorted(run.problems, key=lambda problem: problem.about),
        *remarks,
    )
    counts: dict[str, int] = dict.fromkeys(VERDICTS, 0)
    for finding in findings:
        counts[finding.verdict] += 1
    # Where no rule gave a finding, nothing was shown.
    incomplete = not judged or any(problem.incomplete for problem in problems)
    proven = not counts["unproven"] and not incomplete
    return Findings(
        system=system,
        verdict="fail" if counts["fail"] else "pass" if proven else "unproven",
        counts=counts,
        packs=packs.packs,
        problems=problems,
        findings=tuple(findings),
        studies=run.studies,
        scopes=run.scopes,
    )


def _network_problems(studies: Mapping[str, Studied]) -> list[RunProblem]:
    """What each study could not take in, each once with the first condition it shows in."""
    first: dict[str, str] = {}
    for condition, study in studies.items():
        for what in study.problems:
            first.setdefault(what, condition)
    return [
        RunProblem(kind="network", what=what, about=condition) for what, condition in first.items()
    ]


def _unknown_rules(packs: Packs, only: Collection[str]) -> list[RunProblem]:
    known = packs.rule_names()
    short = {name.partition("/")[2] for name in known}
    return [
        RunProblem(kind="rule", about=name, what=f"no loaded pack has a rule {name!r}")
        for name in only
        if name not in known and name not in short
    ]
