"""Curves against the gates of their standard: slower, or sooner, than it allows."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from functools import lru_cache
from math import exp, log
from typing import NamedTuple

from catalogue.doubts.doubt import Doubt, amps, seconds
from catalogue.doubts.family import is_gg, road_types, table, trip_band, ul_class
from catalogue.generic.tables import Row, applies
from catalogue.layout import described
from catalogue.parts import Part

Points = tuple[tuple[float, float], ...]
#: Rounding of points that were computed from a table.
_ROUNDING = 1e-6


class Gate(NamedTuple):
    """At a current [A] a device lasts at least, and at most, so long [s]; and who says so."""

    current: float
    least: float | None
    most: float | None
    source: str


def curve_doubts(part: Part) -> Iterator[Doubt]:
    """Points that lie outside the gates of the part's family."""
    curve, rating = getattr(part, "curve", None), getattr(part, "rated_current", None)
    if curve is None or rating is None:
        return
    (field,) = (each for each in described(part.kind) if each.metadata["shape"] == "curve")
    said = {side: name for name, side in field.metadata["columns"]}
    for gate in gates_of(part, rating):
        for side in ("fastest", "average_melt", "slowest"):
            points = getattr(curve, side)
            if side in said and points:
                path = f"curve.{said[side]}"
                yield from _outside(part.id, path, side, points, gate, curve.gates)


def _outside(
    part_id: str, path: str, side: str, points: Points, gate: Gate, steps: bool
) -> Iterator[Doubt]:
    at = amps(gate.current)
    if gate.most is not None and (late := _later(points, gate, steps)):
        found = f"{seconds(late[1])} at {amps(late[0])} is slower than its standard allows"
        yield Doubt(part_id, path, found, f"at most {seconds(gate.most)} at {at}", gate.source)
    if gate.least is not None and (soon := _sooner(side, points, gate, steps)):
        found = f"{seconds(soon[1])} at {amps(soon[0])} is sooner than its standard allows"
        yield Doubt(part_id, path, found, f"at least {seconds(gate.least)} at {at}", gate.source)


def _later(points: Points, gate: Gate, steps: bool) -> tuple[float, float] | None:
    """A point at the gate's current or above with a longer time than the gate's."""
    most = (gate.most or 0.0) * (1 + _ROUNDING)
    for current, time in points:
        if current >= gate.current * (1 - _ROUNDING) and time > most:
            return current, time
    there = None if steps else time_at(points, gate.current)
    return (gate.current, there) if there is not None and there > most else None


def _sooner(side: str, points: Points, gate: Gate, steps: bool) -> tuple[float, float] | None:
    """A point at the gate's current or below with a shorter time than the gate's.

    The fastest side of a standard's own gates ends where the next gate begins: it says nothing
    of the currents between.
    """
    least = (gate.least or 0.0) * (1 - _ROUNDING)
    for current, time in points:
        if current <= gate.current * (1 + _ROUNDING) and time < least:
            return current, time
    there = None if steps or side == "slowest" else time_at(points, gate.current)
    return (gate.current, there) if there is not None and there < least else None


def time_at(points: Points, current: float) -> float | None:
    """The time [s] at a current [A] on the log-log line through the points; None beyond them."""
    after = bisect_left(points, current, key=lambda point: point[0])
    if after == len(points) or (after == 0 and points[0][0] != current):
        return None
    if points[after][0] == current:
        return points[after][1]
    (low, long), (high, short) = points[after - 1], points[after]
    return exp(log(long) + log(current / low) / log(high / low) * log(short / long))


def gates_of(part: Part, rating: float) -> tuple[Gate, ...]:
    """The published gates of the part's family at its rating; none if it names no family."""
    return _gates(ul_class(part), is_gg(part), road_types(part), trip_band(part), rating)


@lru_cache(maxsize=4096)
def _gates(
    name: str, gg: bool, types: tuple[str, ...], band: str, rating: float
) -> tuple[Gate, ...]:
    if name:
        return tuple(_ul248(name, rating))
    if gg:
        return tuple(_gg(rating))
    if types:
        return tuple(_road(types, rating))
    return tuple(_breaker(band, rating)) if band else ()


def _ul248(name: str, rating: float) -> Iterator[Gate]:
    for row in table("ul248_gates"):
        within = float(row["rating_min_A"]) <= rating <= float(row["rating_max_A"])
        if row["class"] in ("any", name) and within:
            yield _gate(float(row["multiple_of_rating"]) * rating, row)


def _gate(current: float, row: Row) -> Gate:
    least, most = (float(row[name]) if row[name] else None for name in ("t_min_s", "t_max_s"))
    return Gate(current, least, most, row["source"])


def _gg(rating: float) -> Iterator[Gate]:
    for row in table("gg_gates"):
        if float(row["rating_A"]) == rating:
            source = row["source"]
            yield Gate(float(row["Imin_10s_A"]), 10.0, None, source)
            yield Gate(float(row["Imax_5s_A"]), None, 5.0, source)
            yield Gate(float(row["Imin_0p1s_A"]), 0.1, None, source)
    for row in table("gg_conventional"):
        if applies(row, rating):
            time = float(row["time_h"]) * 3600
            yield Gate(float(row["nonfusing_x_In"]) * rating, time, None, row["source"])
            yield Gate(float(row["fusing_x_In"]) * rating, None, time, row["source"])


def _road(types: tuple[str, ...], rating: float) -> Iterator[Gate]:
    """The gates of the one type, or the widest of all it may be of, where all have one."""
    of: dict[str, dict[str, Gate]] = {}
    for row in table("road_vehicle_fuse_gates"):
        if row["family"] in types:
            current = float(row["percent_of_rating"]) / 100 * rating
            gate = _gate(current, row)
            of.setdefault(row["percent_of_rating"], {})[row["family"]] = gate
    known = {row["family"] for row in table("road_vehicle_fuse_gates")} & set(types)
    for gates in of.values():
        if set(gates) == known:
            least = [gate.least for gate in gates.values()]
            most = [gate.most for gate in gates.values()]
            first = next(iter(gates.values()))
            yield Gate(
                first.current,
                None if None in least else min(each for each in least if each is not None),
                None if None in most else max(each for each in most if each is not None),
                first.source,
            )


def _breaker(band: str, rating: float) -> Iterator[Gate]:
    """The wider of a band's gates on AC and on DC: which one it was set by is not stated."""
    found: dict[tuple[float, bool], Gate] = {}
    for row in table("breaker_bands"):
        if row["bands"] in (f"{band} ac", f"{band} dc") and applies(row, rating):
            gate = _gate(float(row["multiple_of_rating"]) * rating, row)
            if gate.least is not None:
                key = (gate.least, False)
                if key not in found or gate.current < found[key].current:
                    found[key] = gate._replace(most=None)
            if gate.most is not None:
                key = (gate.most, True)
                if key not in found or gate.current > found[key].current:
                    found[key] = gate._replace(least=None)
    yield from found.values()
