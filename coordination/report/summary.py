"""The head of a report: verdict, counts, file, packs with editions, and what was left out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.languages.language import ENGLISH
from coordination.report.wording import clean, counted, place
from coordination.rules.card import UNDATED

if TYPE_CHECKING:
    from coordination.languages.language import Language
    from coordination.report.view import View
    from coordination.rules.finding import Finding, Findings
    from coordination.rules.pack import Pack
    from coordination.rules.problem import RunProblem

#: Order in which a report shows findings: what needs a hand first.
ORDER = ("fail", "unproven", "waived", "note", "pass")

HEADINGS = {
    "fail": "Fails",
    "unproven": "Unproven",
    "waived": "Waived",
    "note": "Notes",
    "pass": "Passes",
}

_GRAVEST = ("fire", "damage", "outage", "paperwork")

_WORDS = {
    "pass": "these checks passed on these inputs",
    "fail": "not every check passed",
    "unproven": "nothing failed, but not everything could be shown",
}


def headline(findings: Findings) -> str:
    """ "FAIL: 2 fail, 1 unproven, 0 waived, 3 note, 41 pass"."""
    counts = ", ".join(f"{findings.counts[verdict]} {verdict}" for verdict in ORDER)
    return f"{findings.verdict.upper()}: {counts}"


def conclusion(findings: Findings) -> str:
    """What the verdict means, no more."""
    return _WORDS[findings.verdict] if any(findings.counts.values()) else "nothing was checked"


def chosen_of(findings: Findings, verdict: str, view: View) -> list[Finding]:
    """The findings of a verdict that are to be shown, the gravest first."""
    chosen = [one for one in findings.findings if one.verdict == verdict and view.shows(one)]
    if verdict in ("fail", "waived"):
        chosen.sort(key=lambda finding: _GRAVEST.index(finding.severity))
    return chosen


def basis(
    findings: Findings, view: View, words: Language = ENGLISH
) -> list[tuple[str, str]]:
    """What was checked, and by what: label and text."""
    conditions = ", ".join(map(clean, findings.studies))
    packs = "; ".join(pack_words(each, words) for each in findings.packs) or words.say("none")
    rows = [
        ("system", clean(findings.system.name)),
        ("file", clean(findings.file)),
        ("packs", packs),
        ("conditions", conditions),
        *(("restricted", words.say(text)) for text in map(clean, view.restricted)),
    ]
    if view.only:
        rows.append(("shown", f"only {', '.join(view.only)}"))
    return [(words.say(label), text) for label, text in rows]


def pack_words(pack: Pack, words: Language = ENGLISH) -> str:
    """ "fundamentals 0.1.0, edition 2026 (14 rules)"."""
    card = pack.card
    rules = counted(len(pack.rules), "rule")
    dated = "" if card.in_force == UNDATED else f", in force {card.in_force}"
    said = f"{card.name} {card.version}, edition {card.edition}{dated} ({rules})"
    return words.say(clean(said))


def problem_line(problem: RunProblem, file: str, words: Language = ENGLISH) -> str:
    """A problem of the run with its place and what was probably meant."""
    near = f"; did you mean {problem.near_miss!r}?" if problem.near_miss else ""
    where = f"{place(file, problem.line)}: " if problem.line else ""
    about = f" (condition {problem.about})" if problem.kind == "network" and problem.about else ""
    what = words.say(clean(problem.what))
    return f"{where}{what}{words.say(clean(about))}{words.say(clean(near))}"


def problem_groups(findings: Findings) -> list[tuple[str, list[RunProblem]]]:
    """What left something unchecked, then mere remarks; each group with its title, none empty."""
    serious = [problem for problem in findings.problems if problem.incomplete]
    remarks = [problem for problem in findings.problems if not problem.incomplete]
    groups = [("Problems: something went unchecked", serious), ("Remarks", remarks)]
    return [(title, group) for title, group in groups if group]
