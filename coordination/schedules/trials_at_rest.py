"""Tests before anything draws: polarity, resting voltages, tightness, switches, the pack's trip."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from coordination.schedules.alive import as_drawn, batteries, lost_on_trip, reached
from coordination.schedules.facts import Facts
from coordination.schedules.trial import Trial, between, listed, on, on_all

if TYPE_CHECKING:
    from coordination.model import System


#: How far resting voltages may differ before batteries are joined [V] (common practice).
APART = "at most 0.1 V apart (common practice)"


def at_rest(facts: Facts) -> Iterator[Trial]:
    """The tests in the order of the day."""
    system = facts.system
    for source in system.sources.values():
        yield on("polarity", source, "voltmeter at its terminals", "+ and - as drawn")
    yield on_all("insulation", "each pole to hull or chassis", "everything off, meter on ohms")
    for feed in _feeds(facts):
        yield on(
            "resting voltage", feed.source, "at rest, nothing drawing or charging",
            between(feed.emf_low, feed.emf_high),
        )  # fmt: skip
    for group in _joined(system):
        yield Trial(
            "voltages before joining", "", "between the + terminals before the last link closes",
            limit=APART, shown=listed(group),
        )  # fmt: skip
    yield on_all("torque", "every terminal", "torque wrench, then marked", "the maker's figure")
    yield on_all("crimps", "every lug", "pulled by hand, and samples on a tester")
    yield from _switches(facts)


def _feeds(facts: Facts) -> Iterator[Any]:
    """Every battery that is in, in any condition, with its figures."""
    seen: set[str] = set()
    for study in facts.studies:
        for feed in study.network.feeds:
            if feed.source.name not in seen:
                seen.add(feed.source.name)
                yield feed


def _joined(system: System) -> Iterator[tuple[str, ...]]:
    """Groups of batteries that lie side by side as drawn."""
    left = list(batteries(system))
    while left:
        around = reached(system, left[:1], as_drawn)
        group = tuple(name for name in left if name in around)
        left = [name for name in left if name not in around]
        if len(group) > 1:
            yield group


def _switches(facts: Facts) -> Iterator[Trial]:
    system, lost = facts.system, lost_on_trip(facts.system)
    for element in system.elements():
        if element.kind != "disconnect":
            continue
        remote = element.operated_by is not None or getattr(element.part, "remote", None)
        how = "opened and closed by its remote control" if remote else "opened and closed by hand"
        yield on("switch", element, how, "opens and closes what it should")
    for name in dict.fromkeys(e.operated_by for e in system.elements() if e.operated_by):
        dark = [each for each in system.equipment if lost is not None and each in lost]
        told = f"without a battery then: {listed(dark)}" if dark else ""
        method = "tripped by its own test or its remote control"
        yield on("pack trip and its alarm", system.sources[name], method, told)
