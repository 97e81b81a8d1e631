"""Tests of what charges and joins: alternators, chargers, converters, emergency links, shore."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.network.supply import converter_current
from coordination.schedules.alive import joins_batteries
from coordination.schedules.busbars import for_a_time
from coordination.schedules.facts import EMPTY, Facts, cell, stated
from coordination.schedules.trial import Trial, at_most, on, on_all


def of_supplies(facts: Facts) -> Iterator[Trial]:
    """The tests in the order of the day."""
    system = facts.system
    for source in system.sources.values():
        if source.part is None:
            yield _limited(source)
    for converter in system.converters.values():
        yield _converter(converter)
    for element in system.elements():
        if joins_batteries(system, element):
            yield _link(facts, element)
    yield on_all("shore limit", "shore inlet", "everything on: the limit that was set holds")
    for source in system.sources.values():
        if source.part is not None:
            capacity = stated(source.part, "capacity", "A·s")
            yield on("run-down", source, "from full to the lowest allowed charge", capacity)


def _limited(source: Any) -> Trial:
    told = [stated(source, "current_limited", "A"), stated(source, "voltage", "V")]
    expected = " at ".join(filter(None, told))
    method = "clamp meter and voltmeter; on disconnection by its maker's procedure"
    return on("charging source", source, method, f"at most {expected}" if expected else EMPTY)


def _converter(converter: Any) -> Trial:
    output, taken = stated(converter, "output_current", "A"), cell(converter_current(converter))
    words = [f"{output} out" if output else EMPTY, f"at most {taken} in" if taken else EMPTY]
    method = "clamp meter at both ends, at full output"
    return on("converter", converter, method, ", ".join(filter(None, words)))


def _link(facts: Facts, element: Any) -> Trial:
    """Expected: the design current of the conditions that close it."""
    current = facts.most(lambda study: study.load(element), lambda study: study.closed(element))
    limit = for_a_time(element.part, "intermittent")
    method = "closed once both voltages are compared"
    return on("parallel switch", element, method, at_most(current), limit)
