"""The words of house rules: what may be limited, of which things, and how a study answers."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

from coordination.trace import Source, Unknown, Value, derive, given

#: What a house rule may be about. "device" is every fuse and breaker.
KINDS = (
    "fuse",
    "breaker",
    "device",
    "disconnect",
    "channel",
    "cable",
    "busbar",
    "battery",
    "equipment",
)


class Word(NamedTuple):
    """One thing that can be limited.

    kinds     -- of subject that have it
    shape     -- "quantity" (with dimension and SI unit), "text" or "flag"
    ask       -- (subject, study) to a Value for a quantity; to a text, a bool or None else
    choices   -- of a text, where they are few
    """

    kinds: tuple[str, ...]
    shape: str
    meaning: str
    ask: Callable[[Any, Any], Any]
    dimension: str = ""
    unit: str = ""
    choices: tuple[str, ...] = ()


_DEVICES = ("fuse", "breaker", "device")
_IN_LINE = (*_DEVICES, "disconnect", "channel")
_ELEMENTS = (*_IN_LINE, "cable")
_WITH_PART = (*_ELEMENTS, "busbar", "battery")


def _rating(unit: str, *fields: str) -> Callable[[Any, Any], Value]:
    """A part's figure, under the first of the names that the part has."""

    def ask(subject: Any, _: Any) -> Value:
        field = next((name for name in fields if hasattr(subject.part, name)), fields[0])
        value = getattr(subject.part, field, None)
        words = field.replace("_", " ")
        if value is None:
            return Unknown(words, (f"{_named(subject)}: {field}",))
        source = Source("part data", f"{subject.part.id}: {field}")
        return given(words, "x", value, unit, source, subject.part.written.get(field, ""))

    return ask


def _stated(unit: str, field: str) -> Callable[[Any, Any], Value]:
    """A figure of the system file."""

    def ask(subject: Any, _: Any) -> Value:
        value = getattr(subject, field)
        if value is None:
            return Unknown(field, (f"{subject.name}: {field}",))
        source = Source("system file", f"{subject.name}: {field}, line {subject.line}")
        return given(field, "x", float(value), unit, source, subject.written.get(field, ""))

    return ask


def _named(subject: Any) -> str:
    return str(subject.name if subject.part is None else subject.part.id)


def _of_part(field: str) -> Callable[[Any, Any], Any]:
    return lambda subject, _: getattr(subject.part, field, None)


def _worst_leg(
    pick: Callable[..., Any], ask: Callable[[Any, Any, Any], Value]
) -> Callable[[Any, Any], Value]:
    """The smallest or the largest over both legs of a cable; unknown if one is."""

    def worst(cable: Any, study: Any) -> Value:
        values = [ask(study, cable, leg) for leg in study.legs(cable)]
        for value in values:
            if isinstance(value, Unknown):
                return value
        chosen: Value = pick(values, key=lambda value: value.value)
        return chosen

    return worst


def _leg_area(_: Any, __: Any, leg: Any) -> Value:
    area: Value = leg.area
    return area


def _share(
    of: Callable[[Any, Any], Value], whole: Callable[[Any, Any], Value], words: str
) -> Callable[[Any, Any], Value]:
    def ask(subject: Any, study: Any) -> Value:
        part, all_of_it = of(subject, study), whole(subject, study)
        if getattr(all_of_it, "value", 1.0) == 0.0:
            return Unknown(words, (f"{subject.name}: {words}, as the whole is 0",))
        symbols = [getattr(value, "symbol", "x") for value in (part, all_of_it)]
        return derive(
            lambda a, b: a / b, words, "s", "", f"{symbols[0]} / {symbols[1]}", part, all_of_it
        )

    return ask


def _quantity(
    kinds: tuple[str, ...], dimension: str, unit: str, meaning: str, ask: Callable[[Any, Any], Any]
) -> Word:
    return Word(kinds, "quantity", meaning, ask, dimension, unit)


def _load(subject: Any, study: Any) -> Value:
    value: Value = study.load(subject)
    return value


_RATED = _rating("A", "rated_current")
_DISTANCE = _stated("m", "distance")
_AMPACITY = _worst_leg(min, lambda study, cable, leg: study.ampacity(cable, leg))
_TEMPERATURE = _worst_leg(max, lambda study, cable, leg: study.conductor_temperature(cable, leg))
_CHEMISTRIES = (
    "lfp", "nmc", "lto", "lead-acid flooded", "lead-acid agm", "lead-acid gel", "sodium-ion",
    "nicd",
)  # fmt: skip


def _drop(equipment: Any, study: Any) -> Value:
    value: Value = study.drop(equipment)
    return value


def _nominal(equipment: Any, study: Any) -> Value:
    value: Value = study.island_nominal(equipment.name)
    return value


#: Every word there is, by name.
WORDS: dict[str, Word] = {
    "part": Word(_WITH_PART, "text", "id of its part", lambda subject, _: _named(subject)),
    "place": Word(KINDS, "text", "where it stands", lambda subject, _: subject.place.name),
    "family": Word(_DEVICES, "text", "family or class of the device", _of_part("family")),
    "status": Word(_WITH_PART, "text", "whether its part's figures were reviewed",
                   _of_part("status"), choices=("draft", "reviewed", "retired")),
    "stranding": Word(("cable",), "text", "stranding class", _of_part("stranding")),
    "material": Word(("cable", "busbar"), "text", "metal of the conductor", _of_part("material")),
    "chemistry": Word(("battery",), "text", "cell chemistry of a battery", _of_part("chemistry"),
                      choices=_CHEMISTRIES),
    "trip_free": Word(("breaker",), "flag", "opens even when held", _of_part("trip_free")),
    "polarised": Word(("breaker",), "flag", "breaks one direction only", _of_part("polarised")),
    "remote": Word(("disconnect",), "flag", "operated by a coil or motor", _of_part("remote")),
    "sheathed": Word(("cable",), "flag", "in a sheath", lambda subject, _: subject.sheathed),
    "critical": Word(("equipment",), "flag", "must stay alive", lambda each, _: each.critical),
    "engine_space": Word(KINDS, "flag", "stands in an engine space",
                         lambda subject, _: subject.place.engine_space),
    "rated_current": _quantity((*_IN_LINE, "busbar"), "current", "A", "its part's rating", _RATED),
    "rated_voltage": _quantity((*_ELEMENTS, "busbar"), "voltage", "V", "its part's DC voltage",
                               _rating("V", "rated_voltage", "voltage")),
    "terminal_limit": _quantity((*_DEVICES, "disconnect"), "temperature", "°C",
                                "what its terminals stand", _rating("°C", "terminal_limit")),
    "insulation_temperature": _quantity(("cable",), "temperature", "°C", "of its insulation",
                                        _rating("°C", "insulation_temperature")),
    "capacity": _quantity(("battery",), "charge", "A·s", "rated capacity of a battery",
                          _rating("A·s", "capacity")),
    "nominal_voltage": _quantity(("battery",), "voltage", "V", "nominal voltage of a battery",
                                 _rating("V", "nominal_voltage")),
    "area": _quantity(("cable",), "area", "m²", "cross-section, the smaller of both legs",
                      _worst_leg(min, _leg_area)),
    "length": _quantity(("cable",), "length", "m", "one way", _stated("m", "length")),
    "distance": _quantity((*_DEVICES, "channel"), "length", "m", "along the conductor from its "
                          "source", _DISTANCE),
    "bundle": _quantity(("cable",), "number", "", "circuits bundled together",
                        _stated("", "bundle")),
    "runs": _quantity(("cable",), "number", "", "equal cables in parallel", _stated("", "runs")),
    "ambient": _quantity(KINDS, "temperature", "°C", "air temperature where it stands",
                         lambda subject, study: study.ambient(subject)),
    "load": _quantity(_ELEMENTS, "current", "A", "design current through it", _load),
    "load_share": _quantity(_IN_LINE, "factor", "", "design current over its rating",
                            _share(_load, _RATED, "share of the rating")),
    "duty": _quantity(_IN_LINE, "current", "A", "largest fault current through it",
                      lambda subject, study: study.duty(subject)),
    "fault_min": _quantity(_DEVICES, "current", "A", "least fault current it must open under",
                           lambda subject, study: study.fault_min_through(subject)),
    "voltage_max": _quantity(_ELEMENTS, "voltage", "V", "highest system voltage at it",
                             lambda subject, study: study.voltage_max(subject)),
    "ampacity": _quantity(("cable",), "current", "A", "what it may carry as installed", _AMPACITY),
    "ampacity_share": _quantity(("cable",), "factor", "", "design current over its ampacity",
                                _share(_load, _AMPACITY, "share of the ampacity")),
    "conductor_temperature": _quantity(("cable",), "temperature", "°C", "of the copper under load",
                                       _TEMPERATURE),
    "drop": _quantity(("equipment",), "voltage", "V", "voltage lost on the way to it", _drop),
    "drop_share": _quantity(("equipment",), "factor", "", "voltage lost over nominal",
                            _share(_drop, _nominal, "relative voltage drop")),
    "load_voltage": _quantity(("equipment",), "voltage", "V", "voltage that arrives",
                              lambda each, study: study.load_voltage(each.name)),
}  # fmt: skip


def words_for(kind: str) -> dict[str, Word]:
    """The words that fit a kind of subject."""
    return {name: word for name, word in WORDS.items() if kind in word.kinds}
