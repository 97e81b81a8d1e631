"""The sections about AC: `shore:` and `ac_loads:`, chargers' `mains` and inverters' `output`."""

from __future__ import annotations

from typing import Any

from catalogue.records import CurrentFor
from coordination.mains import AcLoad, AcOutput, Inlet, Mains
from coordination.reading.nodes import Node, Scalar
from coordination.reading.reader import Reader, Written
from coordination.reading.records import read_record
from coordination.reading.shore_fields import AC_LOAD, INLET


def read_shore(reader: Reader, node: Node) -> dict[str, Inlet]:
    """`shore:` by name."""
    found: dict[str, Inlet] = {}
    for name, key, value in reader.named(node, "inlet"):
        written: Written = {}
        values = read_record(reader, key, value, INLET, written)
        entries = reader.entries(value) or {}
        if "limits" in entries and "input_limit" not in entries:
            what = "limits says what input_limit counts, which is not given"
            reader.notes.say(entries["limits"][0], what, "input_limit: 16 A")
        found[name] = Inlet(name=name, line=key.line, written=written, **values)
    return found


def read_ac_loads(reader: Reader, node: Node) -> dict[str, AcLoad]:
    """`ac_loads:` by name; one whose inlet is not told is left out (and noted)."""
    found: dict[str, AcLoad] = {}
    ways = "power with power_factor, or current"
    for name, key, value in reader.named(node, "AC load"):
        written: Written = {}
        values = read_record(reader, key, value, AC_LOAD, written)
        entries = reader.entries(value) or {}
        if "power" in entries and "current" in entries:
            reader.notes.say(entries["current"][0], "power and current are both given", ways)
        elif "power_factor" in entries and "power" not in entries:
            what = "power_factor belongs to power, which is not given"
            reader.notes.say(entries["power_factor"][0], what, ways)
        if "inlet" in values:
            found[name] = AcLoad(name=name, line=key.line, written=written, **values)
    return found


def mains_of(
    reader: Reader, key: Scalar, values: dict[str, Any], written: Written
) -> Mains | None:
    """The mains side of a charger, taken out of its values; a battery has none (noted)."""
    stated = values.pop("mains", None)
    if stated is None:
        return None
    if "part" in values:
        what = "a battery has no mains: they belong to a charger"
        reader.notes.say(key, what, "current_limited with voltage")
    if "inlet" not in stated:
        return None
    own = _inner(written, "mains")
    return Mains(name=f"{key.text}: mains", line=key.line, written=own, **stated)


def output_of(key: Scalar, values: dict[str, Any], written: Written) -> AcOutput | None:
    """The AC side of an inverter, taken out of its values."""
    stated = values.pop("output", None)
    if stated is None:
        return None
    surge = stated.pop("surge", None) or {}
    holds = stated.pop("breaker_holds", None) or {}
    if len(holds) == 2:
        stated["breaker_holds"] = CurrentFor(**holds)
    return AcOutput(
        name=f"{key.text}: output",
        line=key.line,
        written=_inner(written, "output"),
        surge_power=surge.get("power"),
        surge_time=surge.get("time"),
        **stated,
    )


def _inner(written: Written, field: str) -> Written:
    """The texts of a record's own quantities."""
    inside = f"{field}."
    return {k.removeprefix(inside): text for k, text in written.items() if k.startswith(inside)}
