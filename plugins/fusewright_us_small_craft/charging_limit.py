"""A device in the output of an alternator or another charging source, against its output."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Derived, Judgement, Source, Value, compare, derive, fail, given, note
from coordination.rules import unproven as unknown
from coordination.rules.kit.stated import limit_of
from coordination.rules.kit.zone import zone
from fusewright_us_small_craft.options import asked, stated
from fusewright_us_small_craft.stated import rated_current


def judge_charging(
    source: Any, study: Any, clause: Source
) -> Judgement | Iterator[Judgement] | None:
    """Every first device on the way from a self-limiting source against 120 % of its output.

    A source stated to limit its own current is exempt, and noted.
    """
    if source.name in study.condition.without:
        return None
    point = source.name if hasattr(source, "current_limited") else f"{source.name}.output"
    limiting = stated(study, "self_limiting")
    if limiting:
        return note("limits its own current, as stated: exempt", source=clause)
    near = zone(point, study)
    if near.batteries(study) or near.loads(study) or not near.met:
        return _without(limiting)
    return _devices(source, [device for device, _ in near.met], limiting, clause)


def _without(limiting: bool | None) -> Judgement:
    if limiting is None:
        return unknown(asked("self_limiting"), reason="no device in its output")
    return fail("no device in its output")


def _devices(
    source: Any, devices: list[Any], limiting: bool | None, clause: Source
) -> Iterator[Judgement]:
    limit = _limit(source, clause)
    for device in devices:
        judgement = compare(rated_current(device, "I_n"), at_most=limit, reason=device.name)
        if judgement.verdict == "fail" and limiting is None:
            judgement = unknown(asked("self_limiting"), reason=_words(device, limit))
        yield judgement


def _limit(source: Any, clause: Source) -> Value:
    share = given("share allowed", "p", 1.2, "", clause, "120 %")
    output = limit_of(source, "I_g")
    return derive(lambda p, i: p * i, "largest device", "I_max", "A", "p × I_g", share, output)


def _words(device: Any, limit: Value) -> str:
    assert isinstance(limit, Derived)
    return f"{device.name} is above 120 % of its output, {limit.value:.4g} A"
