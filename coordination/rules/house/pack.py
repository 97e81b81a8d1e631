"""House rules as a pack like any other; margins of other rules are found among its neighbours."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from catalogue.near_miss import nearest
from coordination.errors import BadInput, Problem
from coordination.rules.belief import answers
from coordination.rules.card import Card, PackCard
from coordination.rules.hooks import API_VERSION
from coordination.rules.house.limits import concerns
from coordination.rules.house.reading import Entry, HouseRules, Margin
from coordination.rules.judgement import Judgement, compare, note
from coordination.rules.pack import Pack, Packs
from coordination.rules.rule import Rule
from coordination.trace import Derived, Source, derive, given

NAME = "house"


def house_pack(rules: HouseRules, packs: Packs) -> Pack:
    """The pack `house`. Raises BadInput where a margin is asked of a rule that no pack has.

    packs -- those in use, among whose rules a margin's is looked for
    """
    card = PackCard(
        name=NAME,
        title=f"House rules of {rules.title}",
        api=API_VERSION,
        version=rules.version,
        edition=rules.version,
        in_force=rules.in_force,
        scope="whatever this shop works on",
        not_covered=("anything the shop did not write down",),
        jurisdiction=rules.title,
        status="practice",
    )
    known = {pack.full_name(rule): rule for pack, rule in packs.rules()}
    _check_margins(rules, packs, known)
    made = tuple(_rule(rules.title, entry, known) for entry in rules.entries)
    return Pack(card, tuple(rule for rule in made if rule is not None), editions=(rules.version,))


def _check_margins(rules: HouseRules, packs: Packs, known: dict[str, Rule]) -> None:
    """A rule of a pack that could not be loaded is no mistake of the house rules."""
    lost = {problem.about for problem in packs.problems}
    problems = []
    for entry in rules.entries:
        margin = entry.margin
        if margin and margin.rule not in known and margin.rule.partition("/")[0] not in lost:
            what = f"no pack in use has a rule {margin.rule!r}"
            near = nearest(margin.rule, tuple(known))
            problems.append(Problem(entry.file, margin.line, margin.column, what, "", near))
    if problems:
        raise BadInput(tuple(problems))


def _rule(title: str, entry: Entry, known: dict[str, Rule]) -> Rule | None:
    source = Source("house rules", f"{entry.file}, line {entry.line}")
    if entry.margin is None:
        return Rule(_card(title, entry, source), _each(entry), _limits_judge(entry))
    other = known.get(entry.margin.rule)
    if other is None:
        return None
    each = _each(entry) if entry.every else other.each
    return Rule(_card(title, entry, source), each, _margin_judge(entry, entry.margin, other))


def _each(entry: Entry) -> tuple[str, ...]:
    return ("source" if entry.every == "battery" else entry.every,)


def _card(title: str, entry: Entry, source: Source) -> Card:
    """What the file does not say of the rule is said from its limits."""
    said = entry.said
    severity: Any = said.get("severity", "paperwork")
    return Card(
        name=entry.name,
        title=said.get("title", _in_words(entry)),
        why=said.get("why", f"{title} asks for it."),
        wrong=said.get("wrong", "Anything beyond the limit."),
        right=said.get("right", f"Keep to the limit: {_in_words(entry)}."),
        severity=severity,
        source=source,
        basis="practice",
    )


def _in_words(entry: Entry) -> str:
    which = " and ".join(limit.words() for limit in entry.where)
    of = f"every {entry.every}{' ' + which if which else ''}" if entry.every else "everything"
    if entry.margin is not None:
        return f"{of}: margin of {entry.margin.rule} at least {entry.margin.written}"
    return f"{of}: {', '.join(limit.words() for limit in entry.limits)}"


def _limits_judge(entry: Entry) -> Any:
    def judge(subject: Any, study: Any) -> Iterator[Judgement]:
        if entry.every == "battery" and subject.part is None:
            return
        doubt = concerns(entry.where, subject, study)
        if doubt is None:
            yield from (limit.judge(subject, study) for limit in entry.limits)
        elif doubt.verdict == "unproven":
            yield doubt

    return judge


def _margin_judge(entry: Entry, margin: Margin, other: Rule) -> Any:
    source = Source("house rules", f"{entry.file}, line {margin.line}")
    least = given("least margin", "m_min", margin.at_least, "", source, margin.written)

    def judge(subject: Any, study: Any) -> Iterator[Judgement]:
        doubt = concerns(entry.where, subject, study)
        if doubt is None:
            for answer in answers(other.judge(subject, study)):
                yield _of_margin(answer, margin, least, source)
        elif doubt.verdict == "unproven":
            yield doubt

    return judge


def _of_margin(answer: Judgement, margin: Margin, least: Derived, source: Source) -> Judgement:
    """The other rule's answer, held to a margin; without one it stays what it is."""
    found, required = answer.found, answer.required
    if answer.margin is None or not isinstance(found, Derived) or not isinstance(required, Derived):
        if answer.verdict == "pass":
            why = f"{margin.rule} passes on a fact, which has no margin"
            return note(f"{why}: {answer.reason}" if answer.reason else why, source=source)
        return answer
    upper = answer.relation == "<="
    sides = (required, found) if upper else (found, required)
    formula = f"{sides[0].symbol} / {sides[1].symbol}"
    value = derive(lambda a, b: a / b, f"margin of {margin.rule}", "m", "", formula, *sides)
    return compare(value, at_least=least)
