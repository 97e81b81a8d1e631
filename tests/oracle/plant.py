"""A system file as plain numbers, read by the oracle itself: parts, points, elements, conditions.

Generic parts are read from the catalogue's SQLite file with the standard library. Nothing here
comes from the engine; a figure that is not stated is None.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path
from typing import Any

import yaml

from tests.oracle import copper
from tests.oracle.quantities import band, gauge_area, si

GENERIC = Path(__file__).parents[2] / "catalogue" / "generic" / "generic.sqlite"
PROTECTIVE = ("fuse", "breaker")
KINDS = ("fuse", "breaker", "cable", "disconnect", "channel", "joint")
_BANDS = ("resistance", "resistance_20c", "emf")

Part = dict[str, Any]


@dataclass(eq=False)
class Element:
    """One part at its place, with its loop resistances [Ω] in both bounds.

    low -- max bound, what is not stated 0; high -- min bound, None: not known
    henries -- loop inductance [H], None: not known
    """

    name: str
    kind: str
    circuit: str
    start: str
    end: str
    part: Part | None
    entry: dict[str, Any]
    ambient: float
    low: float = 0.0
    high: float | None = None
    henries: float | None = 0.0

    @property
    def protective(self) -> bool:
        """Whether it counts as an interrupter of faults."""
        if self.kind == "channel":
            return self.part is not None and self.part.get("fails_shorted") is False
        return self.kind in PROTECTIVE


@dataclass
class Supply:
    """A battery (emf, resistance) or a current-limited source (limit), at a point."""

    name: str
    point: str
    part: Part | None = None
    limit: float = 0.0
    voltage: float = 0.0

    @property
    def emf(self) -> tuple[float, float]:
        """Low and full charge [V]."""
        assert self.part is not None
        return self.part["emf"]  # type: ignore[no-any-return]

    @property
    def ohms_low(self) -> float | None:
        """Least resistance: stated, or implied by a declared current if that is less."""
        assert self.part is not None
        stated = self.part.get("resistance")
        declared = self.part.get("short_circuit_current")
        known = [] if stated is None else [stated[0]]
        if declared is not None:
            known.append(self.emf[1] / declared)
        return min(known, default=None)

    @property
    def ohms_high(self) -> float | None:
        """Largest resistance."""
        assert self.part is not None
        stated = self.part.get("resistance")
        return None if stated is None else stated[1]


@dataclass
class Plant:
    """Everything in a file."""

    raw: dict[str, Any]
    parts: dict[str, Part] = field(default_factory=dict)
    elements: list[Element] = field(default_factory=list)
    supplies: list[Supply] = field(default_factory=list)
    draws: dict[str, tuple[str, float]] = field(default_factory=dict)
    points: list[str] = field(default_factory=list)
    conditions: dict[str, dict[str, Any]] = field(default_factory=dict)
    cranking: set[str] = field(default_factory=set)

    def part(self, name: str) -> Part:
        """A part of the file, or the catalogue's."""
        if name not in self.parts:
            own = (self.raw.get("parts") or {}).get(name)
            self.parts[name] = _generic(name) if own is None else _own(own)
        return self.parts[name]

    def closed(self, element: Element, condition: str) -> bool:
        """Whether an element is closed in a condition."""
        state = self.conditions[condition]
        gone = (*state.get("open", ()), *state.get("without", ()))
        if element.name in gone or element.circuit in gone:
            return False
        is_open = element.entry.get("normally") == "open"
        return not is_open or element.name in state.get("close", ())

    def present(self, condition: str) -> Iterator[Supply]:
        """Sources that are in."""
        gone = self.conditions[condition].get("without", ())
        return (s for s in self.supplies if s.name not in gone)

    def drawn(self, condition: str) -> dict[str, float]:
        """Point to current [A] drawn there."""
        state = self.conditions[condition]
        share = state.get("draw", {})
        return {
            point: amps * (si(share[name]) if name in share else 1.0)
            for name, (point, amps) in self.draws.items()
            if name not in state.get("without", ())
        }


def read(text: str) -> Plant:
    """A system file as a plant."""
    raw = yaml.load(text, yaml.CSafeLoader)
    plant = Plant(raw)
    plant.conditions = {"normal": {}, **(raw.get("conditions") or {})}
    for name, entry in raw["sources"].items():
        if "part" in entry:
            plant.supplies.append(Supply(name, name, plant.part(entry["part"])))
        else:
            limit, volts = si(entry["current_limited"]), si(entry["voltage"])
            plant.supplies.append(Supply(name, name, None, limit, volts))
    points = dict.fromkeys((*raw["sources"], *(raw.get("busbars") or {})))
    for name, entry in (raw.get("equipment") or {}).items():
        points[name] = None
        plant.draws[name] = (name, _equipment(entry))
        if entry.get("cranking"):
            plant.cranking.add(name)
    for name, entry in (raw.get("converters") or {}).items():
        points[f"{name}.input"] = points[f"{name}.output"] = None
        amps, volts = si(entry["output_current"]), si(entry["output_voltage"])
        plant.supplies.append(Supply(name, f"{name}.output", None, amps, volts))
        into = amps * volts / si(entry["efficiency"]) / si(entry["min_input_voltage"])
        plant.draws[name] = (f"{name}.input", into)
    for name, circuit in raw["circuits"].items():
        plant.elements += _circuit(plant, name, circuit)
    for element in plant.elements:
        points[element.start] = points[element.end] = None
    plant.points = list(points)
    return plant


def _equipment(entry: dict[str, Any]) -> float:
    if "current" in entry:
        return si(entry["current"])
    return si(entry["power"]) / si(entry["efficiency"]) / si(entry["min_voltage"])


def _circuit(plant: Plant, name: str, circuit: dict[str, Any]) -> Iterator[Element]:
    last = len(circuit["parts"])
    for number, entry in enumerate(circuit["parts"], 1):
        kind = next(kind for kind in KINDS if kind in entry)
        place = plant.raw["places"][entry.get("place", circuit["place"])]
        element = Element(
            entry.get("name", f"{name}/{number}"), kind, name,
            circuit["from"] if number == 1 else f"{name}@{number - 1}",
            circuit["to"] if number == last else f"{name}@{number}",
            None if kind == "joint" else plant.part(entry[kind]), entry, si(place["ambient"]),
        )  # fmt: skip
        _electrical(plant, element)
        yield element


def _electrical(plant: Plant, element: Element) -> None:
    if element.kind != "cable":
        stated = band(element.entry["joint"]) if element.part is None else element.part.get(
            "resistance")  # fmt: skip
        if stated is not None:
            element.low, element.high = stated
        return
    both = legs(plant, element)
    lows = [copper.cold(part) for part, _, _ in both]
    highs = [copper.hot(part) for part, _, _ in both]
    element.low = sum((r or 0.0) * m / n for r, (_, m, n) in zip(lows, both, strict=True))
    if all(r is not None for r in highs):
        element.high = sum((r or 0.0) * m / n for r, (_, m, n) in zip(highs, both, strict=True))
    back = element.entry.get("return")
    if back == "none":
        element.high = None
    elif isinstance(back, dict) and "resistance" in back:
        element.low += si(back["resistance"])
        element.high = None if element.high is None else element.high + si(back["resistance"])
    areas = [part.get("area") for part, _, _ in both]
    spacing = si(element.entry["spacing"]) if "spacing" in element.entry else None
    if len(areas) < 2 and spacing is None:
        element.henries = None
    else:
        element.henries = si(element.entry["length"]) * copper.inductance(
            areas[0], areas[-1], spacing
        )


def legs(plant: Plant, element: Element) -> list[tuple[Part, float, int]]:
    """Conductors of a cable: part, length [m], runs; the second one is the return."""
    assert element.part is not None
    length, back = si(element.entry["length"]), element.entry.get("return")
    there = (element.part, length, int(element.entry.get("runs", 1)))
    if back is None:
        return [there, there]
    if isinstance(back, dict) and "cable" in back:
        metres = si(back["length"]) if "length" in back else length
        return [there, (plant.part(back["cable"]), metres, int(back.get("runs", 1)))]
    return [there]


def _own(entry: dict[str, Any]) -> Part:
    part: Part = {}
    for key, value in entry.items():
        if key in _BANDS:
            part[key] = band(value)
        elif key in ("kind", "status", "chemistry", "stranding", "poles", "polarised",
                     "fails_shorted"):  # fmt: skip
            part[key] = value
        elif key == "awg":
            part["area"] = gauge_area(str(value))
        elif key == "curve":
            part["curve"] = {
                side: [(si(i), si(t)) for i, t in rows] for side, rows in value.items()
            }
        elif key == "derating":
            part[key] = [(si(degrees), si(share)) for degrees, share in value]
        elif key == "interrupt_ratings":
            part[key] = [(si(row["voltage"]), si(row["current"])) for row in value]
        elif key == "discharge":
            part["discharge_continuous"] = si(value["continuous"])
        else:
            part[key] = si(str(value))
    if part["kind"] == "battery" and isinstance(entry.get("resistance"), str):
        only = part["resistance"][0]
        part["resistance"] = (0.85 * only, 1.60 * only)
    return part


@cache
def _generic(name: str) -> Part:
    with sqlite3.connect(f"file:{GENERIC}?mode=ro", uri=True) as base:
        base.row_factory = sqlite3.Row
        (key, kind) = base.execute("SELECT key, kind FROM part WHERE id = ?", (name,)).fetchone()
        row = dict(base.execute(f"SELECT * FROM {kind} WHERE key = ?", (key,)).fetchone())
        part = {name: value for name, value in row.items() if value is not None}
        part |= {"id": name, "kind": kind}
        for band in _BANDS:
            if f"{band}_min" in part:
                part[band] = (part[f"{band}_min"], part[f"{band}_max"])
        part |= _rows(base, key)
    for flag in ("polarised", "fails_shorted"):
        if flag in part:
            part[flag] = bool(part[flag])
    return part


def _rows(base: sqlite3.Connection, key: int) -> Part:
    def pairs(query: str) -> list[tuple[float, float]]:
        return [tuple(row) for row in base.execute(query, (key,))]

    sides = {
        side: pairs("SELECT current, time FROM curve_point WHERE part_key = ? "
                    f"AND side = '{side}' ORDER BY position")
        for side in ("fastest", "slowest")
    }  # fmt: skip
    part: Part = {
        "interrupt_ratings": pairs("SELECT voltage, current FROM interrupt_rating "
                                   "WHERE part_key = ? ORDER BY position"),
        "derating": pairs("SELECT temperature, factor FROM derating WHERE part_key = ?"),
    }  # fmt: skip
    if any(sides.values()):
        part["curve"] = {side: rows for side, rows in sides.items() if rows}
    return part
