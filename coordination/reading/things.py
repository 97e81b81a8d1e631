"""The sections of single things: places, sources, busbars, equipment, converters."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from catalogue.records import CurrentFor
from coordination.model import DEFAULT_AMBIENT, Busbar, Converter, Equipment, Place, Source
from coordination.reading.lookups import DEFAULT_PLACE
from coordination.reading.nodes import Node, Scalar
from coordination.reading.part_checks import check_derating
from coordination.reading.reader import Reader, Written
from coordination.reading.records import read_record
from coordination.reading.shore import mains_of, output_of
from coordination.reading.system_fields import (
    BUSBAR,
    CONVERTER,
    EQUIPMENT,
    LIMITED_ONLY,
    PLACE,
    SOURCE,
)
from coordination.reading.text import quoted


def read_places(reader: Reader, node: Node) -> None:
    """Read `places:` into `reader.places`."""
    for name, key, value in reader.named(node, ""):
        written: Written = {}
        values = read_record(reader, key, value, PLACE, written)
        coldest = values.get("coldest")
        if coldest is not None and coldest > values.get("ambient", DEFAULT_AMBIENT):
            what = "coldest is warmer than ambient, the highest temperature there"
            reader.notes.say((reader.entries(value) or {})["coldest"][1], what)
        reader.places[name] = Place(
            name=name, line=key.line, written=written, stated="ambient" in values, **values
        )


def read_sources(reader: Reader, node: Node) -> dict[str, Source]:
    """`sources:` by name; each is a battery or limits its own current."""
    found: dict[str, Source] = {}
    for name, key, value in reader.named(node, "source"):
        written: Written = {}
        values = read_record(reader, key, value, SOURCE, written)
        _check_source(reader, key, reader.entries(value) or {})
        _check_continuous(reader, reader.entries(value) or {}, values)
        mains = mains_of(reader, key, values, written)
        placed = _placed(values)
        found[name] = Source(name=name, line=key.line, written=written, mains=mains, **placed)
    return found


def _check_source(reader: Reader, key: Scalar, entries: Mapping[str, tuple[Scalar, Node]]) -> None:
    """A source is one thing or the other, and a limited one has a voltage."""
    name = quoted(key.text)
    if "part" in entries:
        for other in LIMITED_ONLY:
            if other in entries:
                what = f"source {name} is a battery (part); {other} belongs to a source without one"
                reader.notes.say(entries[other][0], what, "part, or current_limited with voltage")
    elif "usable_depth" in entries:
        what = f"source {name} is no battery: nothing of it can be used up"
        reader.notes.say(entries["usable_depth"][0], what, "usable_depth of a battery (part)")
    elif "current_limited" not in entries:
        what = f"source {name} states neither a battery nor a current"
        reader.notes.say(key, what, "part, or current_limited with voltage")
    elif "voltage" not in entries:
        reader.notes.say(key, f"voltage is missing: {SOURCE.fields['voltage'].meaning}")


def _check_continuous(
    reader: Reader, entries: Mapping[str, tuple[Scalar, Node]], values: Mapping[str, Any]
) -> None:
    """What a source may give for hours is no more than it can give; less when it is hot."""
    most, continuous = values.get("current_limited"), values.get("continuous")
    if most is not None and continuous is not None and continuous > most:
        what = f"continuous is more than current_limited, {most:g} A"
        reader.notes.say(entries["continuous"][1], what, f"at most {most:g} A")
    if values.get("derating"):
        check_derating(reader, entries["derating"][1], values["derating"])


def _check_duty(
    reader: Reader, entries: Mapping[str, tuple[Scalar, Node]], values: Mapping[str, Any]
) -> None:
    """The least duty is no more than the largest."""
    least, most = values.get("least_duty"), values.get("duty", 1.0)
    if least is not None and least > most:
        what = f"least_duty is more than duty, {most * 100:g} %"
        reader.notes.say(entries["least_duty"][1], what, f"at most {most * 100:g} %")


def read_busbars(reader: Reader, node: Node) -> dict[str, Busbar]:
    """`busbars:` by name; one whose part is not known is left out (and noted)."""
    found: dict[str, Busbar] = {}
    for name, key, value in reader.named(node, "busbar"):
        written: Written = {}
        values = read_record(reader, key, value, BUSBAR, written)
        if "order" in values:
            reader.order_at[name] = (reader.entries(value) or {})["order"][1]
        if "part" in values:
            found[name] = Busbar(name=name, line=key.line, written=written, **_placed(values))
    return found


def read_equipment(reader: Reader, node: Node) -> dict[str, Equipment]:
    """`equipment:` by name."""
    found: dict[str, Equipment] = {}
    for name, key, value in reader.named(node, "equipment"):
        written: Written = {}
        values = read_record(reader, key, value, EQUIPMENT, written)
        _check_draw(reader, reader.entries(value) or {})
        _check_duty(reader, reader.entries(value) or {}, values)
        for which in ("surge", "start", "stall"):
            stated = values.pop(which, None)
            if stated and len(stated) == 2:
                values[which] = CurrentFor(**stated)
        inrush = values.pop("inrush", None) or {}
        if "resistance" in inrush:
            values["inrush_resistance"] = inrush.pop("resistance")
        values.update(inrush)
        output = output_of(key, values, written)
        placed = _placed(values)
        found[name] = Equipment(name=name, line=key.line, written=written, output=output, **placed)
    return found


def _check_draw(reader: Reader, entries: Mapping[str, tuple[Scalar, Node]]) -> None:
    """What it draws is stated one way: by power, or by current."""
    ways = "power with efficiency and min_voltage, or current"
    if "power" in entries and "current" in entries:
        reader.notes.say(entries["current"][0], "power and current are both given", ways)
    elif "power" not in entries:
        for key in ("efficiency", "min_voltage"):
            if key in entries:
                what = f"{key} belongs to power, which is not given"
                reader.notes.say(entries[key][0], what, ways)


def read_converters(reader: Reader, node: Node) -> dict[str, Converter]:
    """`converters:` by name; each has the two points `.input` and `.output`."""
    found: dict[str, Converter] = {}
    for name, key, value in reader.named(node, "converter"):
        for end in ("input", "output"):
            reader.references.declare(f"{name}.{end}", "converter end", key)
        written: Written = {}
        values = read_record(reader, key, value, CONVERTER, written)
        found[name] = Converter(name=name, line=key.line, written=written, **_placed(values))
    return found


def _placed(values: dict[str, Any]) -> dict[str, Any]:
    """The values with a place: the stated one, or the default."""
    values.setdefault("place", DEFAULT_PLACE)
    return values
