"""A battery switch carries what its main device or its feeder does; from memory."""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    Card,
    Judgement,
    Rule,
    Unknown,
    Value,
    capped,
    compare,
    note,
    unproven,
)
from coordination.rules.kit.editions import dated
from coordination.rules.kit.stated import rating
from coordination.rules.kit.zone import zone
from fusewright_iso_small_craft.device_bound import least
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.scope import iso_rule
from fusewright_iso_small_craft.stated import device_rating
from fusewright_iso_small_craft.table_a1 import capacities
from fusewright_iso_small_craft.walk import is_switch, of_starter

CARD = Card(
    name="battery-switch-rating",
    title="Battery switch carries its feeder",
    why="The switch must carry, for as long as it takes, whatever its main device lets through, or "
    "what its feeder may carry, whichever is less.",
    wrong="A switch for 100 A behind a fuse of 200 A.",
    right="A switch rated as the main device; its rating for cranking is a matter of its own load.",
    severity="paperwork",
    source=Y2020.carried("clause 6, rating", read=False),
    basis="standard",
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.carried("clause 6, rating", read=False)

    @iso_rule(dated(CARD, source), each="disconnect")
    def battery_switch_rating(switch: Any, study: Any) -> Judgement | None:
        """Switches met first from a battery."""
        if not _is_battery_switch(switch, study):
            return None
        if of_starter(switch, study):
            return note("in a starter's circuit: by its load", source=source)
        return capped(_judge(switch, study))

    return battery_switch_rating


def _is_battery_switch(switch: Any, study: Any) -> bool:
    sides = (zone(end, study, is_switch, drawn=True) for end in (switch.start, switch.end))
    return any(side.batteries(study) for side in sides)


def _judge(switch: Any, study: Any) -> Judgement:
    rated = rating(switch.part, "rated_current", f"rating of {switch.name}", "I_r", "A")
    devices = [device_rating(d, "I_n") for d in study.series_devices(switch) if d.kind != "channel"]
    feeders = _feeders(switch, study)
    if not (devices or feeders):
        return unproven(f"{switch.name}: a device or a cable in its circuit")
    main: Value | None = least(devices, "smallest device of its circuit") if devices else None
    if main is not None:
        by_device = compare(rated, at_least=main, reason="main device of its circuit")
        if by_device.verdict == "pass" or not feeders:
            return by_device
    feeder = least(feeders, "what its feeder may carry")
    if main is None or isinstance(main, Unknown):
        return compare(rated, at_least=feeder, reason="what its feeder may carry")
    return compare(rated, at_least=least([main, feeder], "device or feeder, the less"))


def _feeders(switch: Any, study: Any) -> list[Value]:
    chain = study.system.circuits[switch.circuit].elements
    cables = [element for element in chain if element.kind == "cable"]
    return [amps for cable in cables for _, amps in capacities(cable, study)]
