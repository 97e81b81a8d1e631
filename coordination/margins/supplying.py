"""A missing datum supplied on trial: what it is, over which values, and how it is put in.

Values over which a datum is tried are wide enough for any small system; none is a recommendation.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from catalogue.records import Band, BreakingRating, CurrentFor, Discharge, InterruptRating
from catalogue.units import SI_UNITS
from coordination.margins.changing import with_elements

if TYPE_CHECKING:
    from coordination.margins.unknowns import Key
    from coordination.model import System

#: Dimension -> lowest and highest value tried [SI, °C], by factors.
RANGES: Final = {
    "resistance": (1e-6, 1.0),
    "current": (1.0, 200e3),
    "voltage": (1.0, 1500.0),
    "temperature": (40.0, 200.0),
    "length": (1e-3, 100.0),
    "let_through": (1.0, 1e9),
    "ratio": (0.1, 1.0),
    "factor": (0.2, 1.0),
}
#: As long, and at as high a voltage, as anything here asks a rating for.
_LONG, _HIGHEST = 3600.0, 1500.0
#: A withstand is tried for this time [s].
_SECOND = 1.0
#: Rows that cover every air temperature [°C].
_COLD, _HOT = -60.0, 120.0


class Trial(NamedTuple):
    """A datum and how to supply it.

    low, high -- values [SI, °C] between which it is tried, by factors; None: `choices` instead
    words     -- what is supplied, where the field takes more than a figure
    """

    dimension: str
    put: Callable[[System, Any], System]
    low: float | None = None
    high: float | None = None
    choices: tuple[Any, ...] = ()
    words: str = ""

    @property
    def unit(self) -> str:
        """The SI unit of its figure."""
        return SI_UNITS.get(self.dimension, "")


#: Field of a part that takes more than a figure -> its figure's dimension, the field, words.
_RECORDS: Final[Mapping[str, tuple[str, str, Callable[[Any, float], Any], str]]] = MappingProxyType(
    {
        "interrupt_ratings": (
            "current", "interrupt_ratings",
            lambda _, amps: (InterruptRating(_HIGHEST, amps),), "at any voltage here",
        ),
        "derating": (
            "factor", "derating", lambda _, share: ((_COLD, share), (_HOT, share)),
            "at any air temperature",
        ),
        "discharge.peak": (
            "current", "discharge",
            lambda part, amps: replace(
                part.discharge or Discharge(), peak=CurrentFor(amps, _LONG)
            ),
            "for as long as asked",
        ),
        "discharge": (
            "current", "discharge", lambda _, amps: Discharge(amps, CurrentFor(amps, _LONG)), "",
        ),
        "short_time": (
            "current", "short_time", lambda _, amps: CurrentFor(amps, _SECOND), "for 1 s",
        ),
        "withstand": (
            "current", "withstand", lambda _, amps: CurrentFor(amps, _SECOND), "for 1 s",
        ),
        "breaking": (
            "current", "breaking", lambda _, amps: BreakingRating(amps, _HIGHEST),
            "at any voltage here",
        ),
        "intermittent": (
            "current", "intermittent", lambda _, amps: (CurrentFor(amps, _LONG),),
            "for as long as asked",
        ),
    }
)  # fmt: skip

#: Fields of the file's own things that may be missing -> dimension, or None for a flag.
_OWN: Final[Mapping[str, str | None]] = MappingProxyType(
    {
        "distance": "length", "length": "length", "sheathed": None, "critical": None,
        "current": "current", "min_voltage": "voltage", "efficiency": "ratio",
        "current_limited": "current", "voltage": "voltage", "min_input_voltage": "voltage",
        "isolated": None,
    }
)  # fmt: skip
_ALIASES: Final = {
    "distance from the source": "distance",
    "distance from the battery": "distance",
    "critical (yes": "critical",
}


def trial_of(key: Key, system: System) -> Trial | None:
    """How to supply a datum; None for what is more than one figure, as a curve is."""
    part = _part(key.who, system)
    if part is not None:
        return _of_part(part, key.field)
    field = next((own for said, own in _ALIASES.items() if key.field.startswith(said)), key.field)
    if field in _OWN and _thing(key.who, field, system):
        return _of_thing(key.who, field)
    return None


def _of_part(part: Any, field: str) -> Trial | None:
    if field in _RECORDS and hasattr(part, _RECORDS[field][1]):
        dimension, name, make, words = _RECORDS[field]
        return _tried(dimension, _into_part(part.id, name, make), words)
    described = type(part).__dataclass_fields__.get(field)
    facts: Mapping[str, Any] = {} if described is None else described.metadata
    dimension = facts.get("dimension", "")
    if facts.get("shape") == "quantity" and dimension in RANGES:
        return _tried(dimension, _into_part(part.id, field, lambda _, value: value))
    if facts.get("shape") == "band" and dimension in RANGES:
        words = "both ends alike"
        return _tried(dimension, _into_part(part.id, field, lambda _, v: Band(v, v)), words)
    if facts.get("shape") == "flag":
        return _chosen((True, False), _into_part(part.id, field, lambda _, value: value))
    return None


def _of_thing(name: str, field: str) -> Trial:
    def put(system: System, value: Any) -> System:
        def changed(thing: Any) -> Any:
            return replace(thing, **{field: value}) if thing.name == name else thing

        groups: dict[str, Any] = {
            group: {known: changed(each) for known, each in getattr(system, group).items()}
            for group in ("sources", "equipment", "converters")
        }
        return with_elements(replace(system, **groups), changed)

    dimension = _OWN[field]
    return _chosen((True, False), put) if dimension is None else _tried(dimension, put)


def _tried(dimension: str, put: Callable[[System, Any], System], words: str = "") -> Trial:
    low, high = RANGES[dimension]
    return Trial(dimension, put, low, high, words=words)


def _chosen(choices: tuple[Any, ...], put: Callable[[System, Any], System]) -> Trial:
    return Trial("", put, choices=choices)


def _into_part(
    part_id: str, name: str, make: Callable[[Any, Any], Any]
) -> Callable[[System, Any], System]:
    def changed(thing: Any, value: Any) -> Any:
        part = thing.part
        if part is None or part.id != part_id:
            return thing
        return replace(thing, part=replace(part, **{name: make(part, value)}))

    def put(system: System, value: Any) -> System:
        sources = {name: changed(each, value) for name, each in system.sources.items()}
        busbars = {name: changed(each, value) for name, each in system.busbars.items()}
        return with_elements(
            replace(system, sources=sources, busbars=busbars), lambda each: changed(each, value)
        )

    return put


def _part(name: str, system: System) -> Any:
    things: list[Any] = [*system.sources.values(), *system.busbars.values(), *system.elements()]
    fitted = (thing.part for thing in things if thing.part is not None)
    return next((part for part in fitted if part.id == name), None)


def _thing(name: str, field: str, system: System) -> bool:
    things: list[Any] = [
        *system.sources.values(), *system.equipment.values(), *system.converters.values(),
        *system.elements(),
    ]  # fmt: skip
    return any(thing.name == name and hasattr(thing, field) for thing in things)
