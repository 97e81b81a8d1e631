"""The answer for people: what to change, what that does, the diff, and where the search ended."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coordination.report.colour import Paint, plain
from coordination.report.limits import cautions
from coordination.report.lines import NARROWEST, labelled, wrapped
from coordination.report.sentence import because
from coordination.report.wording import clean, counted
from coordination.suggest.answer import Answer, Conflict, Cure, Pair
from coordination.suggest.words import (
    bound_words,
    change_words,
    diff_lines,
    waiver_lines,
    wanted_words,
)

if TYPE_CHECKING:
    from coordination.rules.finding import Finding

#: Smaller margins that are listed, the greatest losses first.
_ERODED = 8


def suggest_report(answer: Answer, day: str, width: int, paint: Paint = plain) -> str:
    """The whole answer, ending in a newline.

    day -- today, YYYY-MM-DD, for the waiver that is proposed
    """
    return "\n".join(_lines(answer, day, max(width, NARROWEST), paint)) + "\n"


def _lines(answer: Answer, day: str, width: int, paint: Paint) -> Iterator[str]:
    yield from wrapped(headline(answer), width, "", "  ")
    yield from labelled(_head(answer), width, "  ")
    for place, cure in enumerate(answer.cures, 1):
        title = f"Answer {place} of {len(answer.cures)}: {counted(len(cure.changes), 'change')}"
        yield from ("", paint("heading", title))
        yield from _cure(answer, cure, width)
    if answer.conflict is not None:
        yield from _conflict(answer, answer.conflict, day, width, paint)
    yield from _left(answer, day, width, paint)
    missing = [wanted_words(each) for each in answer.wanted]
    missing += [
        clean(f"{name}: cannot be changed in the text: {why}")
        for name, why in answer.refused.items()
    ]
    yield from _listed("What is lacking", missing, width, paint)
    if answer.targets:
        yield from _listed("What was looked at", bound_words(answer), width, paint)
        yield from _listed("Cautions", list(cautions(answer.before)), width, paint)


def headline(answer: Answer) -> str:
    """One line: what was found."""
    about = clean(answer.subject or "the system")
    if not answer.targets:
        return f"Nothing fails: {about} needs no change."
    fails = counted(len(answer.targets), "fail")
    if not answer.cures:
        found = "No changes were found" if answer.exhausted else "No changes were found in time"
        return f"{found} that cure {about} ({fails})."
    cure = answer.cures[0]
    changes = counted(len(cure.changes), "change")
    if answer.subject is None:
        return f"{changes} for {about}: {len(_cured(answer))} of {fails} cured."
    others = f", in {len(answer.cures)} ways" if len(answer.cures) > 1 else ""
    return f"{changes} for {about}{others}: all of its rules hold in every condition ({fails})."


def _cured(answer: Answer) -> list[Finding]:
    asked = {(each.rule, each.subject) for each in answer.targets}
    fixed = (pair.before for pair in answer.cures[0].fixed if pair.before is not None)
    return [each for each in fixed if (each.rule, each.subject) in asked]


def _head(answer: Answer) -> list[tuple[str, str]]:
    rows = [("system", clean(answer.system.name)), ("file", clean(answer.before.file))]
    if answer.subject is not None:
        rows += [("fails" if n == 0 else "", because(each)) for n, each in
                 enumerate(answer.targets)]  # fmt: skip
    open_ones = ", ".join(f"{each.rule} of {each.subject}" for each in answer.unproven)
    return [*rows, ("unproven", f"{clean(open_ones)}: data to state, nothing to change"
                    if open_ones else "")]  # fmt: skip


def _cure(answer: Answer, cure: Cure, width: int) -> Iterator[str]:
    for change in cure.changes:
        yield from wrapped(change_words(change, answer.system), width, "  - ", "    ")
    yield "  fixes"
    for pair in cure.fixed:
        yield from wrapped(_margins(pair), width, "    ", "      ")
    if cure.eroded:
        yield f"  makes smaller, of margins that still suffice ({len(cure.eroded)})"
        for pair in cure.eroded[:_ERODED]:
            yield from wrapped(_margins(pair), width, "    ", "      ")
        if len(cure.eroded) > _ERODED:
            yield f"    and {len(cure.eroded) - _ERODED} more (--format json has all)"
    if cure.shown:
        yield "  holds for what is added"
        named = ", ".join(f"{each.rule} ({each.verdict})" for each in cure.shown)
        yield from wrapped(clean(named), width, "    ")
    counts = cure.after.counts
    yield from wrapped(
        f"then: {counts['fail']} fail, {counts['unproven']} unproven (none of them new), "
        f"{counts['waived']} waived, by a check of the text below",
        width, "  ",
    )  # fmt: skip
    yield ""
    yield from (f"  {clean(line)}".rstrip() for line in diff_lines(answer, cure))


def _margins(pair: Pair) -> str:
    old, new = pair.before, pair.after
    assert old is not None
    words = f"{old.rule}  {old.subject}"
    if new is None:
        return clean(f"{words}: does not concern the new kind of device")
    if new.verdict == "note":
        return clean(f"{words}: a note: {new.reason}")
    margins = [f"{each.margin:.3g}" for each in (old, new) if each.margin is not None]
    return clean(f"{words}: margin {' -> '.join(margins)}" if margins else words)


def _conflict(
    answer: Answer, conflict: Conflict, day: str, width: int, paint: Paint
) -> Iterator[str]:
    yield from ("", paint("heading", "Why"))
    if len(conflict.rules) > 1:
        told = f"These rules cannot all hold within the bounds: {', '.join(conflict.rules)}. "
        yield from wrapped(f"{told}Without any one of them the others can.", width, "  ")
    elif conflict.rules:
        told = f"Nothing within the bounds makes {conflict.rules[0]} hold"
        yield from wrapped(f"{told}, whatever becomes of the other rules.", width, "  ")
    else:
        yield from wrapped("Which rules conflict was not found out within the limit.", width, "  ")
    for changes, fails in conflict.examples:
        made = "; ".join(change_words(each, answer.system) for each in changes)
        yield from wrapped(made, width, "  - ", "    ")
        for fail in fails[:2]:
            yield from wrapped(f"{fail.rule}: {because(fail)}", width, "      ", "        ")
    if conflict.waivers:
        yield from ("", paint("heading", "What would have to be accepted at least"))
        if conflict.by:
            made = "; ".join(change_words(each, answer.system) for each in conflict.by)
            yield from wrapped(f"with these changes: {made}", width, "  ")
        yield from _waivers(conflict.waivers, day, width)


def _waivers(fails: tuple[Finding, ...], day: str, width: int) -> Iterator[str]:
    if any(fail.severity == "fire" for fail in fails):
        told = "There are fire hazards among these: a waiver mends none."
        yield from wrapped(told, width, "  ")
    yield "  waivers:"
    yield from (f"    {line}" for line in waiver_lines(fails, day))


def _left(answer: Answer, day: str, width: int, paint: Paint) -> Iterator[str]:
    """Of a whole system: the fails that no changes were found for."""
    if answer.subject is not None or not answer.targets:
        return
    cured = {(each.rule, each.subject) for each in _cured(answer)} if answer.cures else set()
    left = tuple(each for each in answer.targets if (each.rule, each.subject) not in cured)
    if not left:
        return
    yield from ("", paint("heading", f"No changes were found for these ({len(left)})"))
    for each in left:
        yield from wrapped(f"{each.rule}: {because(each)}", width, "  - ", "    ")
    yield from wrapped(f"Why: fusewright suggest {clean(answer.before.file)} SUBJECT", width, "  ")
    yield "  They would remain, to be accepted in writing:"
    yield from _waivers(left, day, width)


def _listed(title: str, items: list[str], width: int, paint: Paint) -> Iterator[str]:
    if items:
        yield from ("", paint("heading", title))
        for item in items:
            yield from wrapped(item, width, "  - ", "    ")
