"""One side of a comparison: verdicts, currents and drawing, wherever they were kept.

A run has all of it; a JSON answer has no drawing, and a seal has verdicts and parts only. What a
side does not have is None, and is then not compared.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.comparison.drawing import Thing, things_of

if TYPE_CHECKING:
    from coordination.report.answer_types import ConditionEntry
    from coordination.rules.finding import Finding, Findings
    from coordination.sealing import Seal

#: Condition -> point or element -> quantity ("duty_A") -> its value; None: not known.
Figures = Mapping[str, Mapping[str, Mapping[str, float | None]]]


class Said(NamedTuple):
    """One verdict as it is compared; `because` is empty where it was not kept."""

    rule: str
    subject: str
    verdict: str
    margin: float | None = None
    condition: str = ""
    severity: str = ""
    because: str = ""
    line: int = 0


class Side(NamedTuple):
    """What was found of a system, and what it rests on.

    label   -- how this side is told from the other, for people
    figures -- points and elements by condition
    things  -- everything in the drawing; parts -- id to what the part states, as text by field
    packs   -- name to version and edition
    holes   -- what kept the run from checking everything
    """

    label: str
    system: str
    file: str
    verdict: str
    said: tuple[Said, ...]
    packs: Mapping[str, str]
    holes: tuple[str, ...]
    conditions: tuple[str, ...]
    figures: Figures | None = None
    things: Mapping[str, Thing] | None = None
    parts: Mapping[str, Mapping[str, str]] | None = None


def side_of_run(findings: Findings, label: str) -> Side:
    """The side that a run is."""
    from catalogue.digest import content_of
    from coordination.report.answer import figures_of, problem_words
    from coordination.sealing.make import parts_of

    system = findings.system
    return Side(
        label,
        system.name,
        findings.file,
        findings.verdict,
        tuple(_said(each) for each in findings.findings),
        {each.card.name: f"{each.card.version}, edition {each.card.edition}"
         for each in findings.packs},
        tuple(problem_words(each) for each in findings.problems if each.incomplete),
        tuple(findings.studies),
        _figures(figures_of(findings)),
        things_of(system),
        {part.id: content_of(part) for part in parts_of(system)},
    )  # fmt: skip


def _said(each: Finding) -> Said:
    from coordination.report.sentence import because

    margin = each.margin if each.margin is not None and math.isfinite(each.margin) else None
    return Said(
        each.rule, each.subject, each.verdict, margin, each.condition, each.severity,
        because(each), each.line,
    )  # fmt: skip


def side_of_seal(seal: Seal, path: str) -> Side:
    """The side that a seal kept."""
    said = [
        Said(rule, subject, each.verdict, each.margin, each.condition)
        for rule, subjects in seal.verdicts.items()
        for subject, each in subjects.items()
    ]
    return Side(
        f"seal of {seal.date} by {seal.by}",
        seal.system,
        path,
        seal.verdict,
        tuple(said),
        {name: f"{pack.version}, edition {pack.edition}" for name, pack in seal.packs.items()},
        tuple(seal.problems),
        tuple(seal.conditions),
        parts={name: part.content for name, part in seal.parts.items()},
    )


def side_of_answer(answer: Mapping[str, Any], path: str) -> Side:
    """The side that `check --format json` printed; the answer has its published shape."""
    said = [
        Said(
            each["rule"], each["subject"], each["verdict"], each["margin"], each["condition"],
            each["severity"], each["because"], each["line"],
        )
        for each in answer["findings"]
    ]  # fmt: skip
    return Side(
        f"answer of version {answer['fusewright']}",
        answer["system"],
        path,
        answer["verdict"],
        tuple(said),
        {each["name"]: f"{each['version']}, edition {each['edition']}" for each in answer["packs"]},
        tuple(answer["problems"]),
        tuple(answer["conditions"]),
        _figures(answer["conditions"]),
    )


def _figures(conditions: Mapping[str, ConditionEntry]) -> Figures:
    found: dict[str, dict[str, dict[str, float | None]]] = {}
    for condition, entry in conditions.items():
        own = found[condition] = {}
        groups: tuple[Mapping[str, Any], ...] = (entry["points"], entry["elements"])
        for group in groups:
            for name, figures in group.items():
                own.setdefault(name, {}).update(
                    {key: value for key, value in figures.items() if key in QUANTITIES}
                )
    return found


#: Quantities that are compared -> what they are called, and their unit.
QUANTITIES: Mapping[str, tuple[str, str]] = {
    "fault_max_A": ("largest fault current", "A"),
    "fault_min_A": ("smallest fault current", "A"),
    "duty_A": ("duty", "A"),
    "load_A": ("load", "A"),
    "voltage_max_V": ("highest voltage", "V"),
    "load_voltage_V": ("voltage under load", "V"),
}
