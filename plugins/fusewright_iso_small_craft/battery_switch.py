"""Every battery or bank can be switched off; from memory, with its exemptions."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Rule, capped, fail, note, passed, unproven
from coordination.rules.kit.editions import dated
from coordination.rules.kit.joined import is_fuse_or_breaker
from coordination.rules.kit.zone import Zone, zone
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.options import asked, stated
from fusewright_iso_small_craft.scope import iso_rule
from fusewright_iso_small_craft.walk import is_switch

CARD = Card(
    name="battery-switch",
    title="Battery switch",
    why="In a fire or a fault somebody must be able to part the battery from everything but what "
    "keeps the boat afloat. How near the switch is and who can reach it, the drawing does not say.",
    wrong="A starter straight on the battery; a contactor that only the electronics can open.",
    right="A switch by hand in the positive conductor of each battery or bank. Bilge pumps, "
    "alarms, blowers, memories (`critical: yes`) and charging sources may be joined before it, "
    "each behind a device of its own.",
    severity="paperwork",
    source=Y2020.carried("clause 6", read=False),
    basis="standard",
)
OVERRIDE = "remote battery switches can be operated by hand too"
OUTBOARD = "an outboard craft with circuits for starting and navigation lights only"


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.carried("clause 6", read=False)

    @iso_rule(dated(CARD, source), each="source")
    def battery_switch(battery: Any, study: Any) -> Iterator[Judgement]:
        """By the drawing, whatever is open or closed."""
        if battery.part is None or battery.name in study.condition.without:
            return
        by_hand = stated(study, "remote_switch_override")
        before = zone(battery.name, study, lambda e: _counts(e, by_hand), drawn=True)
        fed = [*_consumers(before, study)]
        if fed and stated(study, "outboard_starting_only"):
            yield note("outboard craft, starting and lights only, as stated", source=source)
            return
        ways = _Ways(battery, by_hand, study)
        for consumer in fed:
            yield capped(_before_switch(consumer, ways, edition))
        for switch, _ in before.met:
            yield passed(f"{switch.name} parts it")

    return battery_switch


class _Ways:
    """What is reached from a battery before any device, and before any switch, remote or not."""

    def __init__(self, battery: Any, by_hand: bool | None, study: Any) -> None:
        self.by_hand = by_hand
        self._bare = zone(
            battery.name, study, lambda e: is_fuse_or_breaker(e) or _counts(e, by_hand), drawn=True
        )
        self._unswitched = zone(battery.name, study, is_switch, drawn=True)

    def protected(self, point: str) -> bool:
        """Whether every way to a point leads through a fuse or breaker."""
        return point not in self._bare.lengths

    def remote(self, point: str) -> bool:
        """Whether every way to a point leads through a remote switch."""
        return point not in self._unswitched.lengths


def _counts(element: Any, by_hand: bool | None) -> bool:
    """Whether the element is a battery switch: by hand, or remote with a stated override."""
    if not is_switch(element):
        return False
    remote = bool(element.operated_by or getattr(element.part, "remote", None))
    return not remote or bool(by_hand)


def _consumers(inside: Zone, study: Any) -> Iterator[tuple[Any, str, bool]]:
    """What is joined here, the point by which, and whether it charges."""
    for each in inside.loads(study):
        yield each, f"{each.name}.input" if hasattr(each, "output_current") else each.name, False
    for each in inside.limited(study):
        yield each, f"{each.name}.output" if hasattr(each, "output_current") else each.name, True


def _before_switch(
    consumer: tuple[Any, str, bool], ways: _Ways, edition: Edition
) -> Judgement:
    """A consumer that no switch by hand parts: exempt, or not."""
    each, point, charges = consumer
    critical = getattr(each, "critical", False)
    if ways.protected(point) and (charges or critical):
        source = edition.carried("clause 6, exempt circuits", read=False)
        what = "a charging source" if charges else "what must stay alive"
        return note(f"{each.name}, {what}, behind a device of its own: exempt", source=source)
    if ways.remote(point):
        if ways.by_hand is None:
            asks = asked("remote_switch_override", OVERRIDE)
            return unproven(asks, reason=f"only a remote switch on the way to {each.name}")
        return fail(f"no switch by hand on the way to {each.name}, a remote one only")
    if not ways.protected(point):
        return fail(f"neither switch nor device on the way to {each.name}")
    if critical is None:
        asks = f"{each.name}: critical (yes: a bilge pump, alarm, blower or memory)"
        return unproven(asks, reason="joined before the battery switch")
    return fail(f"no switch on the way to {each.name}")
