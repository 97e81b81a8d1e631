"""Whether what a record says can be: of this system, two currents that differ, all that is due."""

from __future__ import annotations

from coordination.errors import OutOfRange
from coordination.measured.record import BatteryRecord, Record
from coordination.measured.resistance import resistance_of
from coordination.model import System
from coordination.reading.nodes import Node, Scalar, Table
from coordination.reading.notes import Notes
from coordination.reading.text import quoted


def check_record(notes: Notes, root: Table, record: Record, system: System) -> None:
    """Note whatever contradicts itself or the system."""
    stated = _text(root, "system")
    if stated is not None and stated.text != system.name:
        notes.unknown(
            stated, f"the record is of {quoted(stated.text)}", stated.text, [system.name]
        )
    condition = _text(root, "condition")
    if condition is not None and record.condition not in system.conditions:
        what = f"the system has no condition {quoted(record.condition)}"
        notes.unknown(condition, what, record.condition, system.conditions)
    _check_thermometer(notes, root)
    batteries = _entries(root, "batteries")
    for battery in record.batteries:
        if _check_battery(notes, batteries[battery.name], battery):
            _check_step(notes, batteries[battery.name][0], battery, record)
    if not (record.batteries or record.drops or record.terminals or record.shore):
        what = "nothing is measured in this record"
        notes.say(root, what, "batteries, drops, terminals, shore")


def _check_battery(notes: Notes, at: tuple[Scalar, Node], battery: BatteryRecord) -> bool:
    """Note what keeps two loads from giving a resistance; whether nothing does."""
    entries = at[1].entries if isinstance(at[1], Table) else {}
    for one, other in (("light", "heavy"), ("heavy", "light")):
        if one in entries and other not in entries:
            what = f"{one} without {other}: the resistance needs both"
            notes.say(entries[one][0], what, "{current: ..., voltage: ...}")
    if battery.light is None or battery.heavy is None:
        return False
    for name in ("temperature", "state_of_charge"):
        if name not in entries:
            notes.say(at[0], f"{name} is missing: a resistance is worth little without it")
    if not battery.heavy.current > battery.light.current:
        what = "the heavy current is not above the light one"
        notes.say(entries["heavy"][0], what, f"more than {battery.light.written['current']}")
    elif not battery.heavy.voltage < battery.light.voltage:
        what = "the voltage at the heavy current is not below that at the light one"
        notes.say(entries["heavy"][0], what, f"less than {battery.light.written['voltage']}")
    else:
        return True
    return False


def _check_step(notes: Notes, at: Scalar, battery: BatteryRecord, record: Record) -> None:
    try:
        resistance_of(battery, record)
    except OutOfRange as error:
        what = f"the {error.name} is no larger than the meter's error: it tells no resistance"
        notes.say(at, what, "a larger step in current, or a better meter")


def _check_thermometer(notes: Notes, root: Table) -> None:
    """An error of 4 °F is not one of -15.6 °C."""
    meters = _entries(root, "meters").get("temperature")
    entries = meters[1].entries if meters and isinstance(meters[1], Table) else {}
    if "accuracy" in entries:
        at = entries["accuracy"][1]
        if isinstance(at, Scalar) and not at.text.rstrip().endswith("°C"):
            notes.say(at, "the error of a thermometer is a difference: write it in °C", "2 °C")


def _entries(root: Table, key: str) -> dict[str, tuple[Scalar, Node]]:
    node = root.entries[key][1] if key in root.entries else None
    return node.entries if isinstance(node, Table) else {}


def _text(root: Table, key: str) -> Scalar | None:
    node = root.entries[key][1] if key in root.entries else None
    return node if isinstance(node, Scalar) else None
