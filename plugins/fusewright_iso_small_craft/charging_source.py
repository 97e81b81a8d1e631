"""A charging source has its device inside it or within 1.8 m, sized on its largest output."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Rule, compare, fail, given, note, passed, unproven
from coordination.rules.kit.editions import dated
from coordination.rules.kit.joined import is_fuse_or_breaker
from coordination.rules.kit.runs import run_to
from coordination.rules.kit.stated import limit_of
from coordination.rules.kit.zone import zone
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.options import asked, stated
from fusewright_iso_small_craft.scope import iso_rule
from fusewright_iso_small_craft.stated import device_rating

CARD = Card(
    name="charging-source",
    title="Device near a charging source",
    why="The battery feeds a fault in the charger's lead from one end, the charger from the other. "
    "The device is sized on the source's largest output, read here as rated for it at least; how "
    "large it may be, its conductor says (device-rating). Self-limiting sources are exempt.",
    wrong="A charger at the far end of the boat, its only fuse at the battery.",
    right="A device inside the source or within 1.8 m of it, besides the one at the battery.",
    severity="damage",
    source=Y2020.own(y2012="not known", y2020="12.3", read_in=("2020",)),
    basis="standard",
)
LIMITING = "alternators, chargers and other charging sources limit their own current"
INSIDE = "charging sources have their overcurrent device inside them"


def of(edition: Edition) -> Rule:
    """The rule in this edition; that of 2012 is not known to have one."""
    source = edition.own(y2012="not known", y2020="12.3", read_in=("2020",))
    limit = given("longest conductor up to the device", "l_max", 1.8, "m", source, "1.8 m")

    @iso_rule(dated(CARD, source), each=("source", "converter"))
    def charging_source(source_: Any, study: Any) -> Iterator[Judgement]:
        """Every source that is no battery, and every converter's output."""
        if getattr(source_, "part", None) is not None or source_.name in study.condition.without:
            return
        limiting = stated(study, "self_limiting")
        if limiting:
            yield note("limits its own current, as stated: exempt", source=source)
            return
        for judgement in _devices(source_, study, limit):
            exempt = judgement.verdict != "pass" and limiting is None
            yield _ask(judgement) if exempt else judgement

    return charging_source


def _ask(judgement: Judgement) -> Judgement:
    """Not shown by the drawing: the source may still be exempt."""
    words = judgement.reason or "not shown by the drawing"
    return unproven(*judgement.missing, asked("self_limiting", LIMITING), reason=words)


def _devices(source: Any, study: Any, limit: Any) -> Iterator[Judgement]:
    if stated(study, "device_inside"):
        yield passed("the device is inside the source, as stated")
        return
    point = source.name if hasattr(source, "current_limited") else f"{source.name}.output"
    near = zone(point, study, is_fuse_or_breaker)
    others = [*near.batteries(study), *near.loads(study)]
    if others:
        yield fail(f"no fuse or breaker on the way to {', '.join(each.name for each in others)}")
    for device, drawn in near.met:
        length = run_to(device, drawn, own_end=device.start in near.lengths)
        yield compare(length, at_most=limit, reason=f"up to {device.name}")
    if len(near.met) == 1:
        yield _size(near.met[0][0], source)


def _size(device: Any, source: Any) -> Judgement:
    """A single device bears the whole output; of several that share it nothing is said."""
    reason = f"{device.name} against the largest output"
    return compare(device_rating(device, "I_n"), at_least=limit_of(source, "I_out"), reason=reason)
