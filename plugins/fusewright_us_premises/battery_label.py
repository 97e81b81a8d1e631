"""The battery's disconnect must say what the battery can do."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    Rule,
    Unknown,
    Value,
    capped,
    compare,
    fail,
    rule,
    unproven,
)
from coordination.rules.kit.editions import dated
from fusewright_us_premises.disconnecting import ahead_of_disconnects, not_required
from fusewright_us_premises.editions import Y2023, Edition
from fusewright_us_premises.options import asked, stated, stated_figure

CARD = Card(
    name="battery-label",
    title="The disconnect tells voltage and short-circuit current",
    why="Article 480: the disconnect is marked with the battery's nominal voltage, its largest "
    "short-circuit current and the date it was worked out, so that whoever replaces a device or "
    "works there knows what it must break.",
    wrong="No marking, or one that was true before a second string was added.",
    right="A marking with the nominal voltage, at least the computed current, and today's date.",
    severity="paperwork",
    basis="standard",
    source=Y2023.source(Y2023.battery_marking),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition, with its threshold."""
    source = edition.source(edition.battery_marking, "2014", "2017")

    @rule(dated(CARD, source), each="source")
    def battery_label(battery: Any, study: Any) -> Iterator[Judgement]:
        """The marked current against the largest up to the disconnect; then voltage and date."""
        if battery.part is None or battery.name in study.condition.without:
            return
        nominal = study.sources_nominal(battery.name)
        small = not_required(nominal, edition.battery_volts, source)
        if small is not None:
            yield small
            return
        for each in (_current(battery, study), _voltage(nominal, study), _date(study)):
            if each is not None:
                yield capped(each, source)

    return battery_label


def available(battery: Any, study: Any) -> Value:
    """Largest fault current [A] at any point up to the battery's disconnects."""
    found = [study.fault_max(point) for point in ahead_of_disconnects(battery, study)]
    unknown = [each for each in found if isinstance(each, Unknown)]
    if unknown:
        return unknown[0]
    return max((each for each in found if isinstance(each, Derived)), key=lambda each: each.value)


def _current(battery: Any, study: Any) -> Judgement:
    marked = stated_figure(study, "label_current", "I_label", "A")
    return compare(marked, at_least=available(battery, study))


def _voltage(nominal: Derived, study: Any) -> Judgement | None:
    marked = stated(study, "label_voltage")
    if marked is None:
        return unproven(asked("label_voltage"))
    if round(float(marked), 1) != round(nominal.value, 1):
        return fail(f"marked {float(marked):g} V, the battery has {nominal.value:g} V")
    return None


def _date(study: Any) -> Judgement | None:
    if stated(study, "label_date") is None:
        return unproven(asked("label_date"))
    return None
