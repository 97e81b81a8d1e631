"""Sizes of devices: currents and voltages a factor of ten or a thousand off, ohms for milliohms."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

from catalogue.doubts.doubt import Doubt, amps, ohms, volts
from catalogue.doubts.family import is_gg, road_types, table, ul_class

#: Least and largest rated current [A] and DC voltage [V] of anything that stands in the tables.
_CURRENTS: Final = (0.1, 6300.0)
_VOLTAGES: Final = (6.0, 1500.0)
_CURRENTS_SOURCE: Final = "UL 248 and IEC 60269 go up to 6 kA; from memory, not read here"
_VOLTAGES_SOURCE: Final = "IEC 60269-1: fuses up to 1500 V DC; from memory, not read here"
#: Voltage over a device at its rated current [V] that is doubted, in times the largest published.
_TIMES: Final = 8.0
#: Least resistance of a good bolted lug [Ω].
_LEAST_JOINT: Final = 5e-6
_JOINT_SOURCE: Final = "a good bolted lug alone; order of magnitude, from memory, not read here"
#: Least short-time withstand of a switch, in ratings for one second.
_WITHSTAND: Final = 12.0
_WITHSTAND_SOURCE: Final = "IEC 60947-3: at least 12 × Ie for 1 s; from memory, not read here"


def device_doubts(part: Any) -> Iterator[Doubt]:
    """What is hard to believe of the sizes of a device or a bar."""
    yield from _rated(part)
    for path in ("rated_voltage", "voltage"):
        value = getattr(part, path, None)
        if value is not None and not _VOLTAGES[0] <= value <= _VOLTAGES[1]:
            expected = f"{volts(_VOLTAGES[0])} to {volts(_VOLTAGES[1])}"
            yield Doubt(part.id, path, volts(value), expected, _VOLTAGES_SOURCE)
    if getattr(part, "resistance", None) is not None:
        yield from _resistance(part)
    if part.kind == "disconnect":
        yield from _switch(part)
    if part.kind == "channel" and part.trip_current is not None and part.rated_current is not None:
        rated = part.rated_current
        if not rated <= part.trip_current <= 20 * rated:
            expected = f"{amps(rated)} to {amps(20 * rated)}"
            source = "its own rated_current, one to twenty times"
            yield Doubt(part.id, "trip_current", amps(part.trip_current), expected, source)


def _rated(part: Any) -> Iterator[Doubt]:
    rating = part.rated_current
    if rating is None:
        return
    low, high = _CURRENTS
    source = _CURRENTS_SOURCE
    for row in _families(part):
        listed = [float(text) for text in row["ratings_A"].split(";")]
        low, high = min(listed), max(listed)
        source = f"{row['document']}: ratings of a {row['description']}"
    if not low <= rating <= high:
        expected = f"{amps(low)} to {amps(high)}"
        yield Doubt(part.id, "rated_current", amps(rating), expected, source)


def _families(part: Any) -> list[Any]:
    """The row of the one family that lists its ratings."""
    name, types = ul_class(part), road_types(part)
    if name:
        return [row for row in table("ul248_classes") if row["class"] == name]
    if len(types) == 1:
        return [row for row in table("road_vehicle_fuses") if row["family"] == types[0]]
    if is_gg(part):
        ratings = ";".join(row["rating_A"] for row in table("gg_gates"))
        return [{"ratings_A": ratings, "document": "IEC 60269-2", "description": "gG fuse"}]
    return []


def _resistance(part: Any) -> Iterator[Doubt]:
    """Ohms for milliohms, milliohms for microohms: by the voltage over it at its rated current."""
    band, rating = part.resistance, getattr(part, "rated_current", None)
    if 0 < band.max < _LEAST_JOINT:
        expected = f"{ohms(_LEAST_JOINT)} or more"
        yield Doubt(part.id, "resistance", ohms(band.max), expected, _JOINT_SOURCE)
    if rating is None:
        return
    row = max(table("gg_resistance"), key=lambda row: _drop(row))
    most = _drop(row) / rating
    if band.max > _TIMES * most:
        found = f"{ohms(band.max)} drops {volts(band.max * rating)} at {amps(rating)}"
        source = f"{row['dissipation_W']} W of a {row['rating_A']} A fuse: {row['source']}"
        yield Doubt(part.id, "resistance", found, f"about {ohms(most)} or less", source)


def _drop(row: Any) -> float:
    """The voltage [V] over a fuse that turns the published power into heat at its rating."""
    return float(row["dissipation_W"]) / float(row["rating_A"])


def _switch(part: Any) -> Iterator[Doubt]:
    rating = part.rated_current
    if rating is None:
        return
    for number, row in enumerate(part.intermittent):
        if row.current < rating:
            path = f"intermittent.{number}.current"
            found = f"{amps(row.current)} is less than it carries for good"
            source = "its own rated_current"
            yield Doubt(part.id, path, found, f"{amps(rating)} or more", source)
    if part.withstand is not None and part.withstand.time <= 1.0:
        least = rating
        if part.withstand.current < least:
            expected = f"{amps(_WITHSTAND * rating)} for 1 s"
            found = f"{amps(part.withstand.current)} is less than its rated current"
            yield Doubt(part.id, "withstand.current", found, expected, _WITHSTAND_SOURCE)
