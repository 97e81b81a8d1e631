"""What single events leave, as rows: equal outcomes of several conditions are one row.

Text, markdown and the papers show the same rows; all names are made printable here.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any, NamedTuple

from coordination.report.wording import clean

#: Names that a line of the overview lists before it counts the rest.
LISTED = 6
_MORE = "{names} and {count} more"


class OutageRow(NamedTuple):
    """One event in the conditions in which it leaves the same.

    event -- the `study.outages.Event`; conditions -- their names; everywhere -- all it occurs in
    outcome -- of the first of them
    """

    event: Any
    conditions: tuple[str, ...]
    everywhere: bool
    outcome: Any


def outage_rows(studies: Mapping[str, Any], *, exactly: bool = False) -> tuple[OutageRow, ...]:
    """Rows of all events that change anything, in the order of the events.

    exactly -- conditions that differ in currents, or in what else is joined, are rows of their own
    """
    by_event: dict[tuple[str, str], dict[str, Any]] = {}
    for name, study in studies.items():
        for outcome in study.outages:
            key = (outcome.event.kind, outcome.event.name)
            by_event.setdefault(key, {})[name] = outcome
    kinds = {kind: place for place, kind in enumerate(_kinds())}
    ordered = sorted(by_event.items(), key=lambda item: kinds[item[0][0]])
    return tuple(row for _, outcomes in ordered for row in _of_event(outcomes, exactly))


def _kinds() -> tuple[str, ...]:
    from coordination.study.outages.events import KINDS

    return tuple(KINDS)


def _of_event(outcomes: Mapping[str, Any], exactly: bool) -> Iterator[OutageRow]:
    alike: dict[Any, list[str]] = {}
    for condition, outcome in outcomes.items():
        if not outcome.harmless or (exactly and outcome.parted):
            key = tuple(outcome[1:]) if exactly else effects(outcome)
            alike.setdefault(key, []).append(condition)
    for several in alike.values():
        first = outcomes[several[0]]
        yield OutageRow(first.event, tuple(several), len(several) == len(outcomes), first)


class Effect(NamedTuple):
    """One thing that an event does: a key of the papers' words, to whom, and on what they hang."""

    what: str
    names: tuple[str, ...]
    on: tuple[str, ...] = ()


#: What an effect is called; `on` stands for the sources that are left.
EFFECTS = {
    "dark": "dark",
    "starved": "starved on {on} alone",
    "unknown": "on {on} alone, which may not do",
    "carried": "on {on} alone",
    "stopped": "without input",
    "left": "running without a battery",
    "isolated": "joined to nothing",
}


def effects(outcome: Any) -> tuple[Effect, ...]:
    """What an event does in short: who is struck, without currents."""
    found = [Effect("dark", outcome.dark)] if outcome.dark else []
    by_supply: dict[tuple[str, tuple[str, ...]], list[str]] = {}
    for name, each in outcome.supplied:
        by_supply.setdefault((each.state, each.sources), []).append(name)
    found += [Effect(state, tuple(several), on) for (state, on), several in by_supply.items()]
    found += [Effect("stopped", outcome.stopped)] if outcome.stopped else []
    left = tuple(each.source for each in outcome.left)
    found += [Effect("left", left)] if left else []
    found += [Effect("isolated", outcome.isolated)] if outcome.isolated else []
    return tuple(found)


def effect_words(effect: Effect, critical: frozenset[str]) -> str:
    """ "dark: bilge pump, radio and 3 more", critical equipment first."""
    told = EFFECTS[effect.what].format(on=names(effect.on) or "nothing")
    first = sorted(effect.names, key=lambda name: name not in critical)
    return f"{told}: {names(first)}"


def critical_of(studies: Mapping[str, Any]) -> frozenset[str]:
    """Names of equipment that is stated critical."""
    equipment = next(iter(studies.values())).system.equipment.values()
    return frozenset(each.name for each in equipment if each.critical)


def harmless_events(studies: Mapping[str, Any]) -> tuple[Any, ...]:
    """Events that strike nothing in any condition."""
    found: dict[str, Any] = {}
    harmful: set[str] = set()
    for study in studies.values():
        for outcome in study.outages:
            found.setdefault(outcome.event.told, outcome.event)
            if not outcome.harmless:
                harmful.add(outcome.event.told)
    return tuple(event for told, event in found.items() if told not in harmful)


def as_drawn_rows(studies: Mapping[str, Any]) -> tuple[tuple[str, Any], ...]:
    """Conditions in which something is dark or without a battery before any event."""
    drawn = ((name, study.before_any_event) for name, study in studies.items())
    return tuple((name, outcome) for name, outcome in drawn if not outcome.harmless)


def names(several: Sequence[str], most: int = LISTED, more: str = _MORE) -> str:
    """Names with commas between, the last ones counted in the words of `more`."""
    shown = ", ".join(clean(name) for name in several[:most])
    return more.format(names=shown, count=len(several) - most) if len(several) > most else shown


def grouped(supplied: Sequence[tuple[str, Any]]) -> Iterator[tuple[Any, tuple[str, ...]]]:
    """Equipment that the same limited sources feed, together."""
    by_supply: dict[Any, list[str]] = {}
    for name, each in supplied:
        by_supply.setdefault(each, []).append(name)
    for each, several in by_supply.items():
        yield each, tuple(several)


def live_equipment(studies: Mapping[str, Any]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Names that stay live with every switch off as drawn: by a battery, and by other sources."""
    study = next(iter(studies.values()))
    named = (*study.system.busbars, *study.system.equipment)
    live = study.always_live
    return (
        tuple(name for name in named if name in live.kept),
        tuple(name for name in named if name in live.fed),
    )


class Strike(NamedTuple):
    """An event that takes the batteries from something, with the conditions; none: in all."""

    event: Any
    conditions: tuple[str, ...]


def critical_rows(studies: Mapping[str, Any]) -> tuple[tuple[str, tuple[Strike, ...]], ...]:
    """Equipment stated critical, with the events that leave no battery to it.

    Those of its own branch among them; that every switch is off, which is meant, is left out.
    """
    equipment = next(iter(studies.values())).system.equipment.values()
    return tuple(
        (clean(each.name), tuple(_striking(each.name, studies)))
        for each in equipment
        if each.critical
    )


def _striking(name: str, studies: Mapping[str, Any]) -> Iterator[Strike]:
    occurs: dict[str, int] = {}
    strikes: dict[str, tuple[Any, list[str]]] = {}
    for condition, study in studies.items():
        for outcome in study.outages:
            if outcome.event.kind != "all switches":
                told = outcome.event.told
                occurs[told] = occurs.get(told, 0) + 1
                if name in outcome.dark or any(name == each for each, _ in outcome.supplied):
                    strikes.setdefault(told, (outcome.event, []))[1].append(condition)
    for told, (event, several) in strikes.items():
        yield Strike(event, () if len(several) == occurs[told] else tuple(map(clean, several)))
