"""Every end of a cable that a battery can feed must have a device, close to that battery."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import (
    Card,
    Judgement,
    Source,
    Unknown,
    Value,
    compare,
    fail,
    given,
    note,
    passed,
    rule,
    unproven,
)
from fusewright_fundamentals.cranking_path import cranking_note
from fusewright_fundamentals.unprotected_run import undrawn_run, unprotected_run

CARD = Card(
    name="source-protection",
    title="A device at every end that a battery feeds",
    why="A cable that a battery reaches with no device between burns until the battery is empty.",
    wrong="A charger lead fused at the house end only: metres of live cable from the other end.",
    right="A fuse within 7 in of each battery, or within 72 in if the cable is sheathed up to it.",
    severity="fire",
    source=Source("33 CFR 183.455, 183.460 as of 2025", clause="183.455(b), 183.460(a)"),
)

_BARE = given(
    "longest bare run", "l_max", 0.178, "m", Source("33 CFR 183.455 as of 2025", "(b)(1)"), "178 mm"
)
_SHEATHED = given(
    "longest sheathed run", "l_max", 1.83, "m", Source("33 CFR 183.460 as of 2025", "(a)"), "1.83 m"
)
_SELF_LIMITING = Source("33 CFR 183.460 as of 2025", "(b), self-limiting sources")


@rule(CARD, each="cable")
def source_protection(cable: Any, study: Any) -> list[Judgement]:
    """Each end in turn; a starter's conductor that would fail is exempt by custom, and noted.

    The run between battery and device: up to 178 mm passes bare, up to 1.83 m if stated to be
    sheathed; a device at a battery with neither a distance nor a drawn cable proves nothing.
    """
    answers = [answer for end in ("start", "end") for answer in _end(cable, end, study)]
    if any(answer.verdict in ("fail", "unproven") for answer in answers):
        exempt = cranking_note(cable, study)
        return answers if exempt is None else [exempt]
    return answers or [passed("no source reaches it")]


def _end(cable: Any, end: str, study: Any) -> Iterator[Judgement]:
    side = study.protectors(cable, end)
    if side.exposed:
        yield _exposed(cable, end, side, study)
        return
    for device in side.devices:
        run = undrawn_run(device, study) if _answers_for(cable, device, study) else None
        yield passed(f"{device.name} at its {end}") if run is None else _run(run, device)
    if side.limited:
        names = ", ".join(source.name for source in side.limited)
        yield note(f"only self-limiting sources bare at its {end}: {names}", source=_SELF_LIMITING)


def _answers_for(cable: Any, device: Any, study: Any) -> bool:
    """Whether the run before the device is told of here: in its own circuit, if that has cables."""
    elements = study.system.circuits[device.circuit].elements
    return device.circuit == cable.circuit or all(each.kind != "cable" for each in elements)


def _exposed(cable: Any, end: str, side: Any, study: Any) -> Judgement:
    run = unprotected_run(cable, end, study)
    if run is None:
        names = ", ".join(source.name for source in side.exposed)
        return fail(f"no device between {names} and its {end}")
    return _run(run, cable)


def _run(length: Value, owner: Any) -> Judgement:
    """The verdict on an unprotected run; `owner` states whether it is sheathed."""
    if isinstance(length, Unknown) or length.value <= _BARE.value:
        return compare(length, at_most=_BARE)
    if length.value > _SHEATHED.value or owner.sheathed:
        return compare(length, at_most=_SHEATHED)
    if owner.sheathed is None:
        return unproven(f"{owner.name}: sheathed")
    return compare(length, at_most=_BARE, reason="not sheathed")
