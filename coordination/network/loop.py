"""Loop resistance and inductance of one element: the way there and the way back.

Plain numbers for the solver and, only when asked, the same numbers with their derivation.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from catalogue.parts import Part
from coordination.errors import OutOfRange
from coordination.model import Element, Return
from coordination.network.conductor import Conductors
from coordination.network.device import NEGLECTED, missing_resistance, stated, through
from coordination.network.stated import of_file
from coordination.physics import conductors, inductance, sources
from coordination.trace import DEFINITION, Derived, Source, Unknown, Value, reckon, unknowns


class Way(NamedTuple):
    """One conductor of a cable's loop: the part, its length [m] and equal cables in parallel."""

    name: str
    part: Part
    length: float | None
    runs: int


class Plain(NamedTuple):
    """A loop in numbers [Ω, Ω, H], with what is missing for `high` and for `inductance`."""

    low: float
    high: float
    missing: tuple[str, ...]
    inductance: float
    uncoupled: tuple[str, ...]


class Loops:
    """The loop of every element of one system.

    kept -- what later stages read off the drawing alone: the same in every condition
    """

    def __init__(self) -> None:
        self.conductors = Conductors()
        self.kept: dict[Any, Any] = {}
        self._plain: dict[str, Plain] = {}
        self._per_metre: dict[int, tuple[float, float, tuple[str, ...]]] = {}
        self._pairs: dict[tuple[float, float, float | None], float] = {}

    def plain(self, element: Element) -> Plain:
        """The loop's numbers, without derivation; what is not known counts 0."""
        found = self._plain.get(element.name)
        if found is None:
            make = self._cable if element.kind == "cable" else _device
            found = self._plain[element.name] = make(element)
        return found

    def _cable(self, element: Element) -> Plain:
        low = high = 0.0
        missing: tuple[str, ...] = ()
        for way in ways(element):
            cold, hot, unknown = self._of_part(way.part)
            if way.length is None:
                missing += (f"{element.name}: length of the {way.name} leg",)
                continue
            low += cold * way.length / way.runs
            high += hot * way.length / way.runs
            missing += unknown
        path = _path(element)
        if path is not None:
            low, high = low + path, high + path
        elif element.return_path.kind in ("path", "none"):
            missing += (_no_return(element),)
        missing = tuple(dict.fromkeys(missing))
        coupled = self._henries(element)
        if isinstance(coupled, float):
            return Plain(low, high, missing, coupled, ())
        return Plain(low, high, missing, 0.0, coupled)

    def _of_part(self, part: Part) -> tuple[float, float, tuple[str, ...]]:
        """Resistance per metre of a part, cold and hot, and what is missing for the latter."""
        key = id(part)
        if key not in self._per_metre:
            cold, hot = self.conductors.cold(part), self.conductors.hot(part)
            self._per_metre[key] = (
                cold.value if isinstance(cold, Derived) else 0.0,
                hot.value if isinstance(hot, Derived) else 0.0,
                unknowns((hot,)),
            )
        return self._per_metre[key]

    def low(self, element: Element) -> Value:
        """Loop resistance [Ω] for the max bound; what is not stated is neglected."""
        return self._loop(element, "low")

    def high(self, element: Element) -> Value:
        """Loop resistance [Ω] for the min bound; Unknown where something is not stated."""
        return self._loop(element, "high")

    def inductance(self, element: Element) -> Value:
        """Loop inductance [H]: of a cable's pair of conductors, 0 of everything else."""
        quantity = f"loop inductance of {element.name}"
        if element.kind != "cable":
            return Derived(quantity, "L", 0.0, "H", source=DEFINITION)
        known = self._henries(element)
        if not isinstance(known, float):
            return Unknown(quantity, known)
        length = element.length or 0.0
        per_length = Derived(
            "inductance per length of the pair: 0.4 ln(d / r) + 0.1 µH/m",
            "l",
            known / length if length else 0.0,
            "H/m",
            source=sources.TWO_WIRE_INDUCTANCE,
        )
        run = of_file(element, "length", element.length, "length of the run", "length", "m")
        return reckon(
            inductance.loop_inductance,
            quantity,
            "L",
            "H",
            "l × length",
            per_length,
            run,
            source=DEFINITION,
        )

    def leg(self, element: Element, way: Way, bound: str) -> Value:
        """Resistance [Ω] of one leg at a bound, "low" or "high"."""
        figure = self.conductors.cold if bound == "low" else self.conductors.hot
        inputs: list[Value] = [figure(way.part), _length(element, way)]
        formula = "r × length"
        if way.runs != 1:
            inputs.append(_runs(element, way))
            formula += " / runs"
        return reckon(
            conductors.leg_resistance,
            f"{way.name} leg of {element.name}",
            f"R_{way.name}",
            "Ω",
            formula,
            *inputs,
            source=sources.OHM,
        )

    def _loop(self, element: Element, bound: str) -> Value:
        quantity = f"loop resistance of {element.name}"
        if element.kind != "cable":
            return stated(element, bound, quantity)
        legs = [self.leg(element, way, bound) for way in ways(element)]
        back = element.return_path
        if back.kind in ("path", "none"):
            legs.append(return_path(element, "R_return"))
        if bound == "low":
            legs = [
                _or_neglected(leg, f"R_{name}")
                for leg, name in zip(legs, ("positive", "return"), strict=False)
            ]
        return reckon(
            conductors.loop_resistance,
            quantity,
            "R",
            "Ω",
            "R_positive + R_return",
            *legs,
            source=sources.OHM,
        )

    def _henries(self, element: Element) -> float | tuple[str, ...]:
        """Loop inductance [H] of a cable, or what is missing for it."""
        areas = [self.conductors.area(way.part) for way in ways(element)]
        known = [area.value for area in areas if isinstance(area, Derived)]
        missing = unknowns(areas)
        if element.length is None:
            missing += (f"{element.name}: length",)
        if len(areas) < 2 and element.spacing is None:
            missing += (f"{element.name}: spacing to the return path",)
        if missing:
            return missing
        key = (known[0], known[-1], element.spacing)
        try:
            if key not in self._pairs:
                self._pairs[key] = pair_inductance(known, element.spacing)
        except OutOfRange as error:
            return (f"{element.name}: {error}",)
        return self._pairs[key] * (element.length or 0.0)


def _device(element: Element) -> Plain:
    """The numbers of a device, switch or joint."""
    low, high = through(element)
    if high is None:
        return Plain(low or 0.0, 0.0, missing_resistance(element), 0.0, ())
    return Plain(low or 0.0, high, (), 0.0, ())


def pair_inductance(areas: list[float], spacing: float | None) -> float:
    """Inductance per length [H/m] of conductors of these areas [m²], touching unless spaced [m].

    Raises OutOfRange if the conductors would overlap. Source: see `physics.inductance`.
    """
    radii = [inductance.conductor_radius(area) for area in areas]
    outside = [inductance.touching_spacing(area) for area in areas]
    radius = (radii[0] * radii[-1]) ** 0.5
    return inductance.inductance_per_length(
        spacing if spacing is not None else (outside[0] + outside[-1]) / 2, radius
    )


def ways(element: Element) -> tuple[Way, ...]:
    """The conductors that a cable's loop consists of: positive, and return if it is a cable."""
    if element.part is None:
        return ()
    there = Way("positive", element.part, element.length, element.runs)
    back: Return = element.return_path
    if back.kind == "mirror":
        return (there, there._replace(name="return"))
    if back.kind == "cable" and back.part is not None:
        length = element.length if back.length is None else back.length
        return (there, Way("return", back.part, length, back.runs))
    return (there,)


def return_path(element: Element, symbol: str) -> Value:
    """Resistance [Ω] of a way back that is stated as one number, or Unknown."""
    value = _path(element)
    if value is None:
        return Unknown("resistance of the return path", (_no_return(element),))
    back_line = element.return_path.line or element.line
    return Derived(
        "resistance of the return path",
        symbol,
        value,
        "Ω",
        source=Source("system file", f"{element.name}: return.resistance, line {back_line}"),
        written=element.return_path.written.get("resistance", ""),
    )


def _length(element: Element, way: Way) -> Value:
    quantity = f"length of the {way.name} leg, one way"
    written = element.return_path.written if way.name == "return" else element.written
    if way.length is None:
        return Unknown(quantity, (f"{element.name}: length of the {way.name} leg",))
    text = written.get("length", element.written.get("length", ""))
    return Derived(
        quantity,
        "length",
        way.length,
        "m",
        source=Source("system file", f"{element.name}: length, line {element.line}"),
        written=text,
    )


def _runs(element: Element, way: Way) -> Derived:
    where = f"{element.name}: runs, line {element.line}"
    return Derived(
        "equal cables in parallel", "runs", way.runs, "", source=Source("system file", where)
    )


def _path(element: Element) -> float | None:
    """Resistance [Ω] of a return path that is stated as one number."""
    back = element.return_path
    return back.resistance if back.kind == "path" else None


def _no_return(element: Element) -> str:
    return f"{element.name}: resistance of the return path"


def _or_neglected(leg: Value, symbol: str) -> Value:
    if isinstance(leg, Derived):
        return leg
    return Derived(f"{leg.quantity}: not known, neglected", symbol, 0.0, "Ω", source=NEGLECTED)
