"""What the electrician wrote, checked for spelling and shape only: frozen, with line numbers.

All quantities are SI floats (temperatures in degC); `written` keeps the text of each quantity.
Knows nothing of currents or rules; `reading` makes these objects, `network` takes them further.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date
from typing import Any

from catalogue.frozen import dataclass, field
from catalogue.parts import Battery, BusbarPart, CurrentFor, Part
from coordination.mains import AcLoad, AcOutput, Inlet, Mains
from coordination.named import Named

#: Ambient temperature [degC] of a place that states none.
DEFAULT_AMBIENT = 30.0

#: Kinds of element that interrupt a fault; a channel counts only where it cannot fail shorted.
PROTECTIVE = ("fuse", "breaker")


@dataclass(frozen=True, slots=True, kw_only=True)
class Place(Named):
    """Where things stand: its highest and lowest air temperature [degC], and what space it is."""

    ambient: float = DEFAULT_AMBIENT
    coldest: float | None = None
    stated: bool = False
    engine_space: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Source(Named):
    """A battery (`part`), or a current-limited source: alternator, charger, solar.

    current_limited -- the largest current it can give [A]; None for a battery
    voltage         -- the highest voltage a current-limited source holds [V]
    usable_depth    -- share of a battery's capacity that is used here [1]
    continuous      -- what a current-limited source may give for hours [A]; None: all it can
    derating        -- share of that by ambient temperature: (temperature [degC], share [1])
    regulated       -- whether something holds it to that when more is asked; None: not stated
    mains           -- of a charger that shore power or a generator feeds
    runs_without_battery -- whether a current-limited source may run with no battery beside it
    """

    place: Place
    part: Battery | None = None
    current_limited: float | None = None
    voltage: float | None = None
    usable_depth: float | None = None
    continuous: float | None = None
    derating: tuple[tuple[float, float], ...] = ()
    regulated: bool | None = None
    mains: Mains | None = None
    runs_without_battery: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Busbar(Named):
    """A busbar in its place; `order` lists the circuits along it, if the file tells."""

    place: Place
    part: BusbarPart
    order: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Equipment(Named):
    """What draws current.

    power [W] with efficiency [1] and min_voltage [V], or current [A]
    surge       -- current for a time, above the continuous one
    start       -- current while it starts, and how long that lasts
    stall       -- current while it is blocked, and how long it must stand that
    duty        -- share of the time in which it runs at most [1]; least_duty -- at least
    must_run    -- how long it must run on batteries alone [s]
    capacitance -- input capacitance charged at connection [F]
    inrush_resistance -- of that capacitance itself and its own leads [ohm]
    critical    -- must stay alive (bilge pump, navigation); None: not stated
    cranking    -- an engine starter: its conductors are exempt from protection by custom
    drop_limit  -- allowed voltage drop as a share of nominal [1]; None: by custom
    output      -- the AC side of an inverter
    """

    place: Place
    power: float | None = None
    efficiency: float | None = None
    min_voltage: float | None = None
    current: float | None = None
    surge: CurrentFor | None = None
    start: CurrentFor | None = None
    stall: CurrentFor | None = None
    duty: float | None = None
    least_duty: float | None = None
    must_run: float | None = None
    capacitance: float | None = None
    inrush_resistance: float | None = None
    critical: bool | None = None
    cranking: bool = False
    drop_limit: float | None = None
    output: AcOutput | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Converter(Named):
    """A DC-DC converter: a load at `<name>.input`, a current-limited source at `<name>.output`.

    runs_without_battery -- whether its output may run with no battery beside it
    """

    place: Place
    output_current: float | None = None
    output_voltage: float | None = None
    efficiency: float | None = None
    min_input_voltage: float | None = None
    isolated: bool | None = None
    runs_without_battery: bool | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Return:
    """How the current of a cable comes back.

    kind -- "mirror" (same cable, same length), "cable" (own part, length), "path" (a stated
            resistance [ohm], chassis) or "none" (not stated: unknown resistance)
    """

    kind: str = "mirror"
    part: Part | None = None
    length: float | None = None
    runs: int = 1
    resistance: float | None = None
    line: int = 0
    written: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Element(Named):
    """One part at its place in a circuit; `name` is unique: its own or `<circuit>/<number>`.

    kind        -- fuse, breaker, disconnect, channel, cable, joint
    number      -- 1-based place in the circuit
    start, end  -- the points it lies between, in the circuit's direction
    length      -- one way [m] (cables); distance -- along the conductor from the source [m]
    bundle      -- circuits bundled together, this one included; runs -- equal cables in parallel
    resistance  -- of a joint [ohm], both bounds
    plus_towards -- the point at which a polarised device's + terminal lies ("start" or "end")
    """

    kind: str
    circuit: str
    number: int
    start: str
    end: str
    place: Place
    part: Part | None = None
    length: float | None = None
    distance: float | None = None
    sheathed: bool | None = None
    bundle: int = 1
    runs: int = 1
    spacing: float | None = None
    return_path: Return = field(default_factory=Return)
    normally_open: bool = False
    operated_by: str | None = None
    resistance_min: float | None = None
    resistance_max: float | None = None
    plus_towards: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Circuit(Named):
    """A series chain of elements from one point to another."""

    start: str
    end: str
    elements: tuple[Element, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Condition(Named):
    """An operating condition: what is closed, opened, left out, and each load's share [1]."""

    close: tuple[str, ...] = ()
    open: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    draw: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiver:
    """A fail that somebody accepted, with a reason; it stays visible."""

    rule: str
    subject: str
    reason: str
    by: str
    date: date
    line: int


@dataclass(frozen=True, slots=True, kw_only=True)
class System(Named):
    """One installation, one file.

    packs   -- rule packs to check by, each perhaps with its edition: "us_small_craft@2024"
    options -- pack to option to value, as the packs type them; defaults filled in
    shore   -- inlets for AC, and ac_loads what they feed straight through
    """

    file: str
    nominal_voltage: float | None
    packs: tuple[str, ...]
    ampacity_basis: str | None
    places: Mapping[str, Place]
    sources: Mapping[str, Source]
    busbars: Mapping[str, Busbar]
    equipment: Mapping[str, Equipment]
    converters: Mapping[str, Converter]
    circuits: Mapping[str, Circuit]
    conditions: Mapping[str, Condition]
    waivers: tuple[Waiver, ...]
    options: Mapping[str, Mapping[str, Any]] = field(default_factory=dict)
    shore: Mapping[str, Inlet] = field(default_factory=dict)
    ac_loads: Mapping[str, AcLoad] = field(default_factory=dict)

    def elements(self) -> tuple[Element, ...]:
        """Every element of every circuit, in the file's order."""
        return tuple(element for circuit in self.circuits.values() for element in circuit.elements)
