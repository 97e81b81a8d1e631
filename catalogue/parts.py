"""What a part is: one frozen dataclass per kind, every field with its dimension and meaning.

The field metadata is the only list of fields there is: the reader of system files, the SQLite
schema, the CSV sheets and the JSON Schema are all made from it. Values are SI floats (temperatures
in degC); `written` keeps how each was written, for showing. None means unknown, never a default.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from catalogue.described import choice, flag, of_files, quantity, record, rows, text, whole
from catalogue.frozen import dataclass, field
from catalogue.records import (
    Band,
    BreakingRating,
    CurrentFor,
    Curve,
    Discharge,
    InterruptRating,
)

__all__ = [
    "KINDS", "Band", "Battery", "Breaker", "BreakingRating", "BusbarPart", "Cable", "Channel",
    "CurrentFor", "Curve", "Discharge", "Disconnect", "Fuse", "InterruptRating", "OvercurrentPart",
    "Part",
]  # fmt: skip


_VOLTAGE_CURRENT = (("voltage", "voltage"), ("current", "current"))
_CURRENT_TIME = (("current", "current"), ("time", "time"))
_AT_TEMPERATURE = (("temperature", "temperature"), ("factor", "factor"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """What every part has.

    id      -- its name in the catalogue or in the file's `parts:`
    kind    -- "fuse", "breaker", ... (see KINDS)
    origin  -- "generic", "shop" or "file": which store it came from
    line    -- line in the system file where it is defined (0: from a catalogue)
    written -- field path ("resistance.min", "interrupt_ratings.0.current") to text as written
    extra   -- fields that rule packs add, as "pack.field"; in a system file's own parts only
    """

    id: str
    kind: str
    origin: str = "file"
    line: int = 0
    written: Mapping[str, str] = field(default_factory=dict)
    extra: Mapping[str, Any] = field(default_factory=dict)
    description: str | None = text("what it is, in words")
    document: str | None = text("document the ratings were read in")
    page: str | None = text("page, table or clause in the document")
    reviewed: str | None = field(
        default=None, metadata={"shape": "date", "meaning": "date of the last review, YYYY-MM-DD"}
    )
    status: str | None = choice(
        ("draft", "reviewed", "retired"), "whether the figures were reviewed"
    )
    notes: str | None = text("anything else worth knowing")
    reviewed_by: str | None = text("who reviewed it: another than who entered the figures")
    successor: str | None = text("id of the part that takes the place of a retired one")


@dataclass(frozen=True, slots=True, kw_only=True)
class OvercurrentPart(Part):
    """What fuses and breakers share."""

    family: str | None = text("family or class: class-t, blade, gG, thermal breaker ...")
    rated_current: float | None = quantity("current", "continuous rating")
    rated_voltage: float | None = quantity("voltage", "highest DC voltage it may be used at")
    interrupt_ratings: tuple[InterruptRating, ...] = rows(
        "mappings", _VOLTAGE_CURRENT, "current it breaks at each DC voltage"
    )
    melting_i2t: float | None = quantity("let_through", "least I²t that melts it")
    clearing_i2t: float | None = quantity("let_through", "largest I²t until it has cleared")
    resistance: Band | None = field(
        default=None,
        metadata={
            "shape": "band",
            "dimension": "resistance",
            "meaning": "cold resistance through it",
        },
    )
    terminal_limit: float | None = quantity(
        "temperature", "highest temperature its terminals may reach"
    )
    derating: tuple[tuple[float, float], ...] = rows(
        "pairs", _AT_TEMPERATURE, "share of the rating at each ambient"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Fuse(OvercurrentPart):
    """A fuse link."""

    curve: Curve | None = field(
        default=None,
        metadata=record(
            "curve",
            (("min_melt", "fastest"), ("max_clear", "slowest"), ("average_melt", "average_melt")),
            "time-current boundaries",
        ),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Breaker(OvercurrentPart):
    """A circuit breaker."""

    curve: Curve | None = field(
        default=None,
        metadata=record(
            "curve", (("min_trip", "fastest"), ("max_trip", "slowest")), "time-current boundaries"
        ),
    )
    poles: int | None = whole("number of poles in series on the positive side")
    polarised: bool | None = flag("breaks current in one direction only (marked + and -)")
    trip_free: bool | None = flag("opens even when the handle is held")


@dataclass(frozen=True, slots=True, kw_only=True)
class Cable(Part):
    """One conductor with its insulation."""

    area: float | None = quantity("area", "conductor cross-section (from awg if that is given)")
    awg: str | None = text("American wire gauge size: 4/0 ... 18")
    material: str | None = choice(("copper",), "conductor metal")
    stranding: str | None = choice(
        (
            "class 1",
            "class 2",
            "class 5",
            "class 5 tinned",
            "class 6",
            "class 6 tinned",
            "class 2 tinned",
            "class k",
            "class k tinned",
            "other",
        ),
        "stranding class of IEC 60228, or class k of ASTM B172",
    )
    insulation_temperature: float | None = quantity(
        "temperature", "highest continuous conductor temperature"
    )
    voltage: float | None = quantity("voltage", "highest DC voltage of the insulation")
    resistance_20c: Band | None = field(
        default=None,
        metadata={
            "shape": "band",
            "dimension": "resistance_per_length",
            "meaning": "at 20 °C, per length",
        },
    )
    outside_diameter: float | None = quantity("length", "over the insulation")
    short_circuit_temperature: float | None = quantity("temperature", "highest in a short circuit")


@dataclass(frozen=True, slots=True, kw_only=True)
class BusbarPart(Part):
    """A bar or a block of terminals that several circuits meet on."""

    rated_current: float | None = quantity("current", "continuous, through its busiest section")
    voltage: float | None = quantity("voltage", "highest DC voltage of its supports and cover")
    material: str | None = choice(
        ("copper", "tinned copper", "brass", "aluminium"), "metal of the bar"
    )
    width: float | None = quantity("length", "width of the bar")
    thickness: float | None = quantity("length", "thickness of the bar")
    short_time: CurrentFor | None = field(
        default=None, metadata=record("mapping", _CURRENT_TIME, "current it withstands for a time")
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Disconnect(Part):
    """A switch: manual, or remote (relay, contactor)."""

    rated_current: float | None = quantity("current", "continuous rating")
    intermittent: tuple[CurrentFor, ...] = rows(
        "mappings", _CURRENT_TIME, "currents for limited times"
    )
    voltage: float | None = quantity("voltage", "highest DC voltage")
    breaking: BreakingRating | None = field(
        default=None,
        metadata=record(
            "mapping", (("current", "current"), ("voltage", "voltage")), "current it may open under"
        ),
    )
    withstand: CurrentFor | None = field(
        default=None,
        metadata=record("mapping", _CURRENT_TIME, "fault current it carries for a time"),
    )
    resistance: Band | None = field(
        default=None,
        metadata={
            "shape": "band",
            "dimension": "resistance",
            "meaning": "through the closed switch",
        },
    )
    remote: bool | None = flag("operated by a coil or a motor")
    terminal_limit: float | None = quantity(
        "temperature", "highest temperature its terminals may reach"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Channel(Part):
    """One output of a solid-state switching module."""

    rated_current: float | None = quantity("current", "continuous rating of the output")
    voltage: float | None = quantity("voltage", "highest DC voltage")
    trip_current: float | None = quantity("current", "current at which the electronics switch off")
    interrupt_ratings: tuple[InterruptRating, ...] = rows(
        "mappings", _VOLTAGE_CURRENT, "current it breaks at each DC voltage"
    )
    fails_shorted: bool | None = flag("its transistor may fail closed (assumed where not stated)")
    resistance: Band | None = field(
        default=None,
        metadata={
            "shape": "band",
            "dimension": "resistance",
            "meaning": "through the closed output",
        },
    )
    derating: tuple[tuple[float, float], ...] = rows(
        "pairs", _AT_TEMPERATURE, "share of the rating at each ambient"
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Battery(Part):
    """A battery or pack, seen from its terminals."""

    chemistry: str | None = choice(
        (
            "lfp", "nmc", "lto", "lead-acid flooded", "lead-acid agm", "lead-acid gel",
            "sodium-ion", "nicd",
        ),
        "cell chemistry",
    )  # fmt: skip
    nominal_voltage: float | None = quantity("voltage", "nominal voltage")
    capacity: float | None = quantity("charge", "rated capacity")
    emf: Band | None = field(
        default=None,
        metadata={
            "shape": "band",
            "dimension": "voltage",
            "meaning": "open-circuit, low and full charge",
        },
    )
    charge_voltage: float | None = quantity("voltage", "highest voltage while charging")
    resistance: Band | None = field(
        default=None,
        metadata={
            "shape": "band",
            "dimension": "resistance",
            "meaning": "terminal to terminal, DC",
        },
    )
    discharge: Discharge | None = field(
        default=None,
        metadata=record(
            "discharge",
            (("continuous", "current"), ("peak", "current for time")),
            "current the maker allows",
        ),
    )
    short_circuit_current: float | None = quantity("current", "as its maker declares it")
    cells: int | None = whole("cells in series")
    usable_depth: float | None = of_files("ratio", "share of the capacity that may be used")
    capacity_tolerance: float | None = of_files("ratio", "below and above the rated capacity")
    capacity_factors: tuple[tuple[float, float], ...] = rows(
        "pairs", _AT_TEMPERATURE, "share of the capacity at each temperature", in_files_only=True
    )
    charge_current: float | None = of_files("current", "largest continuous charging current")
    charge_efficiency: float | None = of_files("ratio", "charge given back over charge put in")
    peukert_exponent: float | None = of_files("factor", "of lead-acid: less at high currents")
    rated_time: float | None = of_files("time", "discharge time of the rated capacity (20 h)")
    low_cutoff: float | None = of_files("voltage", "voltage at which the discharge is ended")


KINDS: Mapping[str, type[Part]] = MappingProxyType(
    {
        "fuse": Fuse,
        "breaker": Breaker,
        "cable": Cable,
        "busbar": BusbarPart,
        "disconnect": Disconnect,
        "channel": Channel,
        "battery": Battery,
    }
)
