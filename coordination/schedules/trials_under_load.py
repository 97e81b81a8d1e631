"""Tests with everything drawing: voltage drop, warm terminals, the battery's resistance, inrush."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.measured.prediction import allowed_drop
from coordination.network.supply import equipment_current
from coordination.report.wording import number
from coordination.schedules.facts import EMPTY, Facts, cell, stated
from coordination.schedules.trial import Trial, at_most, between, on
from coordination.trace import Derived, Unknown, Value

#: How long it draws before terminals have their temperature (common practice).
LOADED = "all drawing for 20 to 30 min"


def under_load(facts: Facts) -> Iterator[Trial]:
    """The tests in the order of the day."""
    for equipment in facts.system.equipment.values():
        if _draws(equipment):
            yield _drop(facts, equipment)
    for element in facts.system.elements():
        if element.kind in ("fuse", "breaker"):
            yield _terminal(facts, element)
    seen: set[str] = set()
    for study in facts.studies:
        for feed in study.network.feeds:
            if feed.source.name not in seen:
                seen.add(feed.source.name)
                yield _resistance(feed)
    for equipment in facts.system.equipment.values():
        yield from _moments(facts, equipment)


def _draws(equipment: Any) -> bool:
    current = equipment_current(equipment)
    return isinstance(current, Unknown) or current.value > 0


def _drop(facts: Facts, equipment: Any) -> Trial:
    def connected(study: Any) -> bool:
        lost = study.drop(equipment)
        return isinstance(lost, Derived) or not any("not connected" in m for m in lost.missing)

    drop = facts.most(lambda study: study.drop(equipment), connected)
    method = f"from the battery's terminals to its own, {LOADED}"
    return on("voltage drop", equipment, method, at_most(drop), _drop_limit(facts, equipment))


def _drop_limit(facts: Facts, equipment: Any) -> str:
    """What the file or its rule allows, in volts, and of which share."""
    allowed = allowed_drop(facts.findings, equipment)
    if allowed is None or allowed.source is None:
        return EMPTY
    return f"{cell(allowed)} ({allowed.source.clause})"


def _terminal(facts: Facts, element: Any) -> Trial:
    """Expected: the warmest conductor that ends on it, at its design current and ambient."""

    def warmest(study: Any) -> Value:
        found: list[Value] = [
            study.conductor_temperature(cable, leg)
            for cable in study.neighbours(element)
            for leg in study.legs(cable)[:1]
        ]
        unknown = next((each for each in found if isinstance(each, Unknown)), None)
        known = [each for each in found if isinstance(each, Derived)]
        if unknown is not None or not known:
            return unknown or Unknown("terminal temperature", ("a cable that ends on it",))
        return max(known, key=lambda each: each.value)

    ambient = cell(facts.studies[0].ambient(element))
    expected = at_most(facts.most(warmest))
    told = f"{expected} in {ambient}" if expected and ambient else expected
    limit = stated(element.part, "terminal_limit", "°C")
    return on("terminal temperature", element, f"thermometer, {LOADED}", told, limit)


def _resistance(feed: Any) -> Trial:
    method = "U and I at two steady currents: (U1 - U2) / (I2 - I1)"
    band = between(feed.resistance_low, feed.resistance_high)
    return on("resistance of the battery", feed.source, method, band)


def _moments(facts: Facts, equipment: Any) -> Iterator[Trial]:
    if equipment.capacitance is not None:
        peak = cell(facts.most(lambda study: study.inrush(equipment).peak))
        told = f"{peak} without pre-charge" if peak else EMPTY
        yield on("pre-charge", equipment, "time, and voltage before the main switch closes", told)
    for word in ("start", "stall", "surge"):
        row = getattr(equipment, word)
        if row is not None:
            current = number(row.current, "A", equipment.written.get(f"{word}.current", ""))
            time = number(row.time, "s", equipment.written.get(f"{word}.time", ""))
            running = cell(equipment_current(equipment))
            told = f"{running} running, {current} for {time} at {word}"
            yield on(f"{word} current", equipment, "clamp meter, running and loaded", told)
