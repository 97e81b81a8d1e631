"""Law: a branch's device stands at the source, or as near as is physically practical."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from coordination.rules import Card, Judgement, Unknown, compare, given, passed, unproven
from coordination.rules.kit.joined import is_fuse_or_breaker
from coordination.rules.kit.runs import run_to
from coordination.rules.kit.zone import zone
from fusewright_us_small_craft.conductor import installations
from fusewright_us_small_craft.device_bound import supply
from fusewright_us_small_craft.device_limit import below_50_volts, from_50_volts
from fusewright_us_small_craft.options import asked, stated
from fusewright_us_small_craft.scope import law, law_rule
from fusewright_us_small_craft.table5 import BUNDLES_COUNT
from fusewright_us_small_craft.voltage import nominal

CARD = Card(
    name="source-placement",
    title="Law: device at the source of power",
    why="A branch between a bus and its device is fed by everything on the bus. The clause wants "
    "the device at the source; 7 in, or 40 in within a sheath or enclosure, only if nearer is "
    "physically impractical. Batteries have a section of their own, battery-placement.",
    wrong="A row of in-line fuses half a metre down their wires because that was convenient.",
    right="A fuse block on the bus.",
    severity="damage",
    source=law("183.455(b)"),
    basis="law",
)
AT_SOURCE = given("at the source", "l_max", 0.0, "m", CARD.source, "0 in")
NEAR = given("longest if at the source is impractical", "l_max", 7 * 0.0254, "m",
             law("183.455(b)(1)"), "7 in")  # fmt: skip
ENCLOSED = given("longest if nearer is impractical, sheathed", "l_max", 40 * 0.0254, "m",
                 law("183.455(b)(2)"), "40 in")  # fmt: skip


@law_rule(CARD, each="device")
def source_placement(device: Any, study: Any) -> Judgement | None:
    """First devices of circuits that begin at a bus which a device already protects."""
    for bus, before in _ways(device, study):
        if study.closed(device) and not zone(bus, study).batteries(study):
            return _judge(device, bus, before, study)
    return None


def _ways(device: Any, study: Any) -> Iterator[tuple[str, Sequence[Any]]]:
    """Busbars at the ends of the circuit, with the elements between each and the device."""
    circuit = study.system.circuits[device.circuit]
    chain, at = circuit.elements, device.number - 1
    for bus, before in ((circuit.start, chain[:at]), (circuit.end, chain[at + 1 :])):
        if bus in study.system.busbars and not any(map(is_fuse_or_breaker, before)):
            yield bus, before


def _judge(device: Any, bus: str, before: Sequence[Any], study: Any) -> Judgement | None:
    feeding = supply(bus, device, study, singly=_from_battery(device, study))
    if feeding is None:
        return None
    cables = [element for element in before if element.kind == "cable"]
    if cables and not isinstance(feeding, Unknown) and _bear(cables, feeding, study):
        return passed(f"what feeds {bus} protects the conductor before it too")
    if not cables and device.distance is None:
        return _on_bus(stated(study, "devices_on_bus"), device)
    length = run_to(device, sum(cable.length or 0.0 for cable in cables))
    sheathed = _sheathed(device, cables)
    return _placed(length, sheathed, stated(study, "as_near_as_practical"), device)


def _on_bus(every: bool | None, device: Any) -> Judgement:
    """A device with nothing drawn before it: on the bus only if the file says so."""
    if every:
        return passed("on the bus, as stated of every device drawn so")
    distance = f"{device.name}: distance from the source"
    return unproven(distance if every is False else f"{distance}, or {asked('devices_on_bus')}")


def _from_battery(device: Any, study: Any) -> bool:
    """Whether the device is that of a battery's own lead: each other battery has its own too."""
    circuit = study.system.circuits[device.circuit]
    ends = (study.system.sources.get(point) for point in (circuit.start, circuit.end))
    return any(source is not None and source.part is not None for source in ends)


def _bear(cables: Sequence[Any], feeding: Any, study: Any) -> bool:
    """Whether the devices that feed the bus are rated for each of these cables."""
    volts = nominal(cables[0].start, study)
    if isinstance(volts, Unknown):
        return False
    limits_of = below_50_volts if volts.value < BUNDLES_COUNT else from_50_volts
    limits = [limits_of(leg).plain for cable in cables for leg in installations(cable, study)]
    return all(compare(feeding, at_most=limit).verdict == "pass" for limit in limits)


def _sheathed(device: Any, cables: Sequence[Any]) -> bool | None:
    said = [cable.sheathed for cable in cables] or [device.sheathed]
    return False if False in said else None if None in said else True


def _placed(length: Any, sheathed: bool | None, nearest: Any, device: Any) -> Judgement:
    if isinstance(length, Unknown) or length.value <= 0.0:
        return compare(length, at_most=AT_SOURCE)
    if length.value > ENCLOSED.value:
        return compare(length, at_most=ENCLOSED)
    if length.value > NEAR.value and sheathed is False:
        return compare(length, at_most=NEAR, reason="not sheathed")
    if nearest is False:
        return compare(length, at_most=AT_SOURCE, reason="a nearer place is practical")
    missing = [] if nearest else [asked("as_near_as_practical")]
    if length.value > NEAR.value and sheathed is None:
        missing.append(f"{device.name}: sheathed")
    if missing:
        return unproven(*missing, reason="away from the source")
    return compare(length, at_most=NEAR if length.value <= NEAR.value else ENCLOSED)
