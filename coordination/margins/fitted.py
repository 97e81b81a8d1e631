"""Uncertain inputs of what is fitted: batteries, cables and their lengths, resistances."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from typing import Any

from coordination.margins import changing
from coordination.margins.inputs import Input
from coordination.model import Element, System

#: Users of one part that are named; more would hide the part.
_NAMED = 3


def battery_inputs(system: System) -> Iterator[Input]:
    """Of each battery part: both ends of resistance and emf, charge voltage, capacity."""
    for part, users in _by_part(system.sources.values()):
        who = owner(part.id, users)
        for end, word in (("min", "least"), ("max", "largest")):
            if part.resistance is not None:
                yield _of_part(part, f"{word} resistance of {who}", "resistance", end)
        if part.short_circuit_current is not None:
            what = f"declared short-circuit current of {who}"
            yield _plain(part, what, "short_circuit_current", _CURRENT)
        for end, word in (("min", "lowest"), ("max", "highest")):
            if part.emf is not None:
                yield _of_part(part, f"{word} open-circuit voltage of {who}", "emf", end)
        if part.charge_voltage is not None:
            yield _plain(part, f"charge voltage of {who}", "charge_voltage", _VOLTAGE)
        if part.capacity is not None:
            yield _plain(part, f"capacity of {who}", "capacity", ("capacity", "charge", "A·s"))
        if part.usable_depth is not None:
            yield _plain(part, f"usable depth of {who}", "usable_depth", ("share", "ratio", ""))


def resistance_inputs(system: System) -> Iterator[Input]:
    """Stated resistances of devices and switches, by part, and of joints and return paths."""
    for part, users in _by_part(system.elements()):
        if getattr(part, "resistance", None) is not None:
            for end, word in _ends(part.resistance.min, part.resistance.max):
                what = f"{word}resistance of {owner(part.id, users)}"
                yield _of_part(part, what, "resistance", end)
    for element in system.elements():
        if element.resistance_min is not None and element.resistance_max is not None:
            yield from _joint(element)
        if element.return_path.resistance is not None:
            yield _return_path(element)


def element_inputs(system: System) -> Iterator[Input]:
    """Lengths of cables and of their returns, and distances of devices from their source."""
    for element in system.elements():
        if element.length is not None:
            yield _length(element, "length", element.length)
        if element.return_path.kind == "cable" and element.return_path.length is not None:
            yield _return_length(element, element.return_path.length)
        if element.distance is not None:
            yield _length(element, "distance", element.distance)


def owner(part_id: str, users: tuple[str, ...]) -> str:
    """Who a part's figure belongs to: its only user, else the part with its users."""
    if len(users) == 1:
        return users[0]
    more = f" and {len(users) - _NAMED} more" if len(users) > _NAMED else ""
    return f"{part_id} ({', '.join(users[:_NAMED])}{more})"


def _by_part(things: Iterable[Any]) -> Iterator[tuple[Any, tuple[str, ...]]]:
    """Each part once, with the names of all that are made of it."""
    users: dict[str, list[str]] = {}
    parts: dict[str, Any] = {}
    for thing in things:
        if thing.part is not None:
            parts[thing.part.id] = thing.part
            users.setdefault(thing.part.id, []).append(thing.name)
    return ((part, tuple(users[name])) for name, part in parts.items())


def _ends(low: float, high: float) -> tuple[tuple[str, str], ...]:
    """The ends of a band that are inputs: one figure for both is one input."""
    return (("both", ""),) if low == high else (("min", "least "), ("max", "largest "))


def _of_part(part: Any, what: str, name: str, end: str) -> Input:
    band = getattr(part, name)
    dimension, unit = ("voltage", "V") if name == "emf" else ("resistance", "Ω")
    key = name if end == "both" else f"{name}.{end}"
    return Input(
        what, f"{part.id}: {key}", dimension, dimension, unit,
        band.max if end == "max" else band.min,
        part.written.get(key) or part.written.get(name, ""), part.line,
        changing.in_part(part.id, changing.band_end(name, end)), _other(part, name, end),
    )  # fmt: skip


def _other(part: Any, name: str, end: str) -> tuple[float, changing.Put] | None:
    """The band's other end, and what changes nothing but that."""
    if end == "both":
        return None
    other = "max" if end == "min" else "min"
    change = changing.band_end(name, other)
    return getattr(getattr(part, name), other), changing.in_part(part.id, change)


#: Kind, dimension, unit.
_CURRENT, _VOLTAGE = ("current", "current", "A"), ("voltage", "voltage", "V")


def _plain(part: Any, what: str, name: str, of: tuple[str, str, str]) -> Input:
    return Input(
        what, f"{part.id}: {name}", *of, getattr(part, name),
        part.written.get(name, ""), part.line, changing.in_part(part.id, changing.field(name)),
    )  # fmt: skip


def _length(element: Element, name: str, now: float) -> Input:
    words = "length" if name == "length" else "distance from the source"
    return Input(
        f"{words} of {element.name}", f"{element.name}: {name}", "length", "length", "m", now,
        element.written.get(name, ""), element.line,
        changing.in_elements({element.name}, changing.field(name)),
    )  # fmt: skip


def _return_length(element: Element, now: float) -> Input:
    def change(each: Element, value: float) -> Element:
        return replace(each, return_path=replace(each.return_path, length=value))

    return Input(
        f"length of the return of {element.name}", f"{element.name}: return: length",
        "length", "length", "m", now, element.return_path.written.get("length", ""),
        element.return_path.line or element.line,
        changing.in_elements({element.name}, change),
    )  # fmt: skip


def _return_path(element: Element) -> Input:
    def change(each: Element, value: float) -> Element:
        return replace(each, return_path=replace(each.return_path, resistance=value))

    now = element.return_path.resistance
    assert now is not None
    return Input(
        f"resistance of the return path of {element.name}",
        f"{element.name}: return: resistance", "resistance", "resistance", "Ω", now,
        element.return_path.written.get("resistance", ""),
        element.return_path.line or element.line,
        changing.in_elements({element.name}, change),
    )  # fmt: skip


def _joint(element: Element) -> Iterator[Input]:
    low, high = element.resistance_min, element.resistance_max
    assert low is not None
    assert high is not None
    for end, word in _ends(low, high):

        other = None
        if end != "both":
            beyond = "max" if end == "min" else "min"
            other = (low if end == "max" else high, _joint_end(element, beyond))
        written = element.written
        yield Input(
            f"{word}resistance of {element.name}", f"{element.name}: joint", "resistance",
            "resistance", "Ω", high if end == "max" else low,
            written.get(f"joint.{end}") or written.get("joint", ""), element.line,
            _joint_end(element, end), other,
        )  # fmt: skip


def _joint_end(element: Element, end: str) -> changing.Put:
    def change(each: Element, value: float) -> Element:
        assert each.resistance_min is not None
        assert each.resistance_max is not None
        ends = changing.moved(each.resistance_min, each.resistance_max, end, value)
        return replace(each, resistance_min=ends[0], resistance_max=ends[1])

    return changing.in_elements({element.name}, change)
