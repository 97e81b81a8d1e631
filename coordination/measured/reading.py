"""A commissioning record: file to `Record`, with every problem told at once, each at its place.

What is still empty in a record counts as not measured.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from catalogue.parts import Part
from coordination.measured.record import (
    CURRENT_ACCURACY,
    TEMPERATURE_ACCURACY,
    VOLTAGE_ACCURACY,
    BatteryRecord,
    Charging,
    DropRecord,
    Meter,
    Reading,
    Record,
    ShoreRecord,
    TerminalRecord,
)
from coordination.measured.record_fields import BATTERY, DROP, RECORD, TERMINAL
from coordination.measured.sound import check_record
from coordination.model import System
from coordination.reading.fields import FieldTable
from coordination.reading.nodes import Broken, Listing, Node, Scalar, Table, tree
from coordination.reading.notes import Notes
from coordination.reading.reader import Reader, Written
from coordination.reading.records import read_record
from coordination.reading.text import decode, quoted, read_file

_NOTHING = Scalar("", 0, 0)


class _NoCatalogue:
    """A record names no parts."""

    def get(self, part_id: str, /) -> Part | None:  # noqa: ARG002
        return None

    def near(self, part_id: str, kind: str, /) -> str | None:  # noqa: ARG002
        return None


def read_measured(path: str, system: System) -> Record:
    """The record at `path`, of that system. Raises BadInput with every problem of the file."""
    notes = Notes(path)
    root = filled(tree(decode(read_file(path), path), notes))
    if not isinstance(root, Table):
        notes.say(_NOTHING, "nothing is filled in in this record", ", ".join(RECORD.fields))
        notes.raise_if_any()
        raise AssertionError
    reader = Reader(notes, _NoCatalogue())
    written: Written = {}
    values = read_record(reader, root, root, RECORD, written)
    record = _record(reader, path, values, written, root, system)
    check_record(reader.notes, root, record, system)
    notes.raise_if_any()
    return record


def filled(node: Node) -> Node | None:
    """The node without what is still empty; None if nothing is left."""
    if isinstance(node, Table):
        kept = {key: (at, filled(value)) for key, (at, value) in node.entries.items()}
        node.entries = {key: (at, value) for key, (at, value) in kept.items() if value is not None}
        return node if node.entries else None
    if isinstance(node, Listing):
        node.items = [each for each in map(filled, node.items) if each is not None]
        return node if node.items else None
    return None if node.nothing() and not isinstance(node, Broken) else node


def _record(
    reader: Reader, path: str, values: dict[str, Any], written: Written, root: Table, system: System
) -> Record:
    meters = values.get("meters", {})
    devices = [e.name for e in system.elements() if e.kind in ("fuse", "breaker", "disconnect")]
    known = [name for name, source in system.sources.items() if source.part is not None]
    shore = values.get("shore")
    return Record(
        file=path,
        date=values.get("date", ""),
        by=values.get("by", ""),
        condition=values.get("condition", "normal"),
        voltage=_meter(meters.get("voltage", {}), VOLTAGE_ACCURACY),
        current=_meter(meters.get("current", {}), CURRENT_ACCURACY),
        temperature=_meter(meters.get("temperature", {}), TEMPERATURE_ACCURACY),
        batteries=tuple(map(_battery, _entries(reader, values, "batteries", BATTERY, known))),
        drops=tuple(map(_drop, _entries(reader, values, "drops", DROP, system.equipment))),
        terminals=tuple(map(_terminal, _entries(reader, values, "terminals", TERMINAL, devices))),
        shore=_shore(shore, root, written) if shore and "current" in shore else None,
    )


def _meter(values: dict[str, Any], usual: float) -> Meter:
    return Meter(
        accuracy=values.get("accuracy", usual),
        resolution=values.get("resolution"),
        stated="accuracy" in values,
        serial=values.get("instrument", ""),
    )


#: What of a charger must be told before its share can be worked out.
_CHARGING = ("current", "voltage", "efficiency", "power_factor")

_Entry = tuple[Scalar, dict[str, Any], Written]


def _entries(
    reader: Reader, values: dict[str, Any], key: str, table: FieldTable, known: Iterable[str]
) -> Iterator[_Entry]:
    """The entries of a section that are about something in the system, and are whole."""
    names = tuple(known)
    for name, at, node in reader.named(values.get(key, _NOTHING), ""):
        if name not in names:
            what = f"{key}: nothing there is named {quoted(name)} in the system"
            reader.notes.unknown(at, what, name, names)
            continue
        written: Written = {}
        found = read_record(reader, at, node, table, written)
        if all(field in found for field in table.required):
            yield at, found, written


def _battery(entry: _Entry) -> BatteryRecord:
    at, values, written = entry
    spread = values.get("spread", {})
    return BatteryRecord(
        name=at.text,
        line=at.line,
        open_circuit=values.get("open_circuit"),
        light=_reading(values.get("light"), "light", written),
        heavy=_reading(values.get("heavy"), "heavy", written),
        temperature=values.get("temperature"),
        state_of_charge=values.get("state_of_charge"),
        spread=(spread["under"], spread["over"]) if len(spread) == 2 else None,
        written=written,
    )


def _reading(values: dict[str, float] | None, key: str, written: Written) -> Reading | None:
    if values is None or len(values) < 2:
        return None
    texts = {name: written.get(f"{key}.{name}", "") for name in values}
    return Reading(current=values["current"], voltage=values["voltage"], written=texts)


def _drop(entry: _Entry) -> DropRecord:
    at, values, written = entry
    return DropRecord(
        name=at.text,
        line=at.line,
        current=values["current"],
        drop=values["drop"],
        alone=values.get("drawing", "alone") == "alone",
        written=written,
    )


def _terminal(entry: _Entry) -> TerminalRecord:
    at, values, written = entry
    return TerminalRecord(name=at.text, line=at.line, written=written, **values)


def _shore(values: dict[str, Any], root: Table, written: Written) -> ShoreRecord:
    texts = {name: written.get(f"shore.{name}", "") for name in values}
    line = root.entries["shore"][0].line
    given = {**values, "charging": _charging(values.get("charging"), written)}
    return ShoreRecord(line=line, written=texts, **given)


def _charging(values: dict[str, float] | None, written: Written) -> Charging | None:
    if values is None or len(values) < len(_CHARGING):
        return None
    texts = {name: written.get(f"shore.charging.{name}", "") for name in values}
    return Charging(written=texts, **values)
