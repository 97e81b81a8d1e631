"""Every battery or bank can be switched off; from memory, with its exemptions."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, Rule, capped, fail, note, passed, unproven
from fusewright_iso_small_craft.editions import Y2020, Edition, dated
from fusewright_iso_small_craft.options import asked, stated
from fusewright_iso_small_craft.scope import iso_rule
from fusewright_iso_small_craft.walk import Zone, is_device, is_switch, zone

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
        before = zone(battery.name, study, is_switch, drawn=True)
        bare = zone(battery.name, study, lambda e: is_switch(e) or is_device(e), drawn=True)
        fed = [*_consumers(before, study)]
        if fed and stated(study, "outboard_starting_only"):
            yield note("outboard craft, starting and lights only, as stated", source=source)
            return
        for each, point, charges in fed:
            protected = point not in bare.lengths
            yield capped(_without_switch(each, protected, charges, edition))
        for switch, _ in before.met:
            yield capped(_switch(switch, study))

    return battery_switch


def _consumers(inside: Zone, study: Any) -> Iterator[tuple[Any, str, bool]]:
    """What is joined here, the point by which, and whether it charges."""
    for each in inside.loads(study):
        yield each, f"{each.name}.input" if hasattr(each, "output_current") else each.name, False
    for each in inside.limited(study):
        yield each, f"{each.name}.output" if hasattr(each, "output_current") else each.name, True


def _without_switch(each: Any, protected: bool, charges: bool, edition: Edition) -> Judgement:
    """A converter's input is a load like others, and none that the clause exempts."""
    if not protected:
        return fail(f"neither switch nor device on the way to {each.name}")
    source = edition.carried("clause 6, exempt circuits", read=False)
    if charges:
        return note(f"{each.name}, a charging source behind its own device", source=source)
    critical = getattr(each, "critical", False)
    if critical is None:
        asks = f"{each.name}: critical (yes: a bilge pump, alarm, blower or memory)"
        return unproven(asks, reason="joined before the battery switch")
    if critical:
        return note(f"{each.name}, behind a device of its own: exempt", source=source)
    return fail(f"no switch on the way to {each.name}")


def _switch(switch: Any, study: Any) -> Judgement:
    """A contactor counts where it can be operated by hand."""
    remote = bool(switch.operated_by or getattr(switch.part, "remote", None))
    if not remote:
        return passed(f"{switch.name} is a switch by hand")
    by_hand = stated(study, "remote_switch_override")
    if by_hand is None:
        asks = asked("remote_switch_override", OVERRIDE)
        return unproven(asks, reason=f"{switch.name} is remote")
    if by_hand:
        return passed(f"{switch.name} is remote, and operated by hand too, as stated")
    return fail(f"{switch.name} is remote and cannot be operated by hand, as stated")
