"""No charging source runs on into a bus from which every battery has gone.

An alternator that loses its battery under load drives the voltage of its bus far up for some
tenths of a second, since the current in its field does not fall at once; a test pulse for road
vehicles is described in ISO 16750-2:2012, 4.6.4 (from memory, not read here). How other sources
fare is known to their makers only. So the file must say that a source may run alone.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from coordination.rules import COMMON_PRACTICE, Card, Judgement, fail, passed, rule, unproven
from fusewright_continuity.counted import counted, is_a_trip, no_second_event

CARD = Card(
    name="load-dump",
    title="No charging source runs on without a battery",
    why="A battery holds the voltage down. When it goes while an alternator charges, the voltage "
    "leaps to several times nominal and takes electronics with it.",
    wrong="An alternator on the house bus, with a lithium pack that may disconnect itself as the "
    "only battery there.",
    right="An alternator on a lead-acid battery with a DC-DC from there to the house, or a warning "
    "that stops the charging before the pack opens. A source that is made for it says so: "
    "runs_without_battery: yes.",
    severity="damage",
    source=COMMON_PRACTICE,
    basis="practice",
)

#: Loads that are named; the rest are counted.
_NAMED = 3


@rule(CARD, each=("source", "converter"))
def load_dump(source: Any, study: Any) -> Iterator[Judgement]:
    """Charging sources: not batteries, and not converters that never see one (power supplies).

    Left with loads and not stated to run alone, a limited source fails. Left with nothing but its
    own wires only the source itself is at risk, and a converter has no field to die down: there an
    unstated source is unproven.
    """
    if getattr(source, "part", None) is not None or source.name in study.condition.without:
        return
    converter = source.name in study.system.converters
    if converter and not study.may_have_battery(source):
        return
    left = tuple(_left(source, study))
    for company in (True, False):
        several = [each for each in left if bool(each.beside) is company and not each.missing]
        if several:
            yield _judged(source, several, converter=converter)
    if not source.runs_without_battery:
        for each in left:
            if each.missing:
                yield unproven(*each.missing, reason=f"runs on without a battery {each.when}")
    if is_a_trip(study):
        yield no_second_event()
    elif not left:
        yield passed("a battery stays with it in every single event")


class _Left(NamedTuple):
    """When it runs without a battery, beside which loads, and what decides whether that counts."""

    when: str
    beside: tuple[str, ...]
    missing: tuple[str, ...] = ()


def _left(source: Any, study: Any) -> Iterator[_Left]:
    for left in study.before_any_event.left:
        if left.source == source.name:
            yield _Left("in this condition as drawn", left.beside)
    for each in () if is_a_trip(study) else counted(source, study):
        yield _Left(f"when {each.event.told}", each.how.beside, each.missing)


def _judged(source: Any, several: list[_Left], *, converter: bool) -> Judgement:
    """All events that leave it with loads, or all that leave it with nothing."""
    beside = several[0].beside
    first, more = ", ".join(beside[:_NAMED]), len(beside) - _NAMED
    company = f"{first} and {more} more" if more > 0 else first or "nothing else"
    told = f"runs on with {company} and no battery {', '.join(each.when for each in several)}"
    if source.runs_without_battery:
        return passed(f"{told}; the file states that it may")
    if source.runs_without_battery is False or (beside and not converter):
        return fail(told)
    return unproven(f"{source.name}: runs_without_battery", reason=told)
