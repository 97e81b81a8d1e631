"""What the figures of a part must satisfy among themselves; each contradiction is noted."""

from __future__ import annotations

from bisect import bisect_left
from itertools import pairwise
from math import exp, log
from typing import Any

from catalogue.records import Curve, InterruptRating
from coordination.reading.nodes import Listing, Node, Table
from coordination.reading.reader import Reader

Points = tuple[tuple[float, float], ...]

def check_part(reader: Reader, node: Table, values: dict[str, Any]) -> None:
    """Note what contradicts itself in a part's `values`, read from `node`."""
    if ratings := values.get("interrupt_ratings"):
        _check_ratings(reader, node.entries["interrupt_ratings"][1], ratings)
    if derating := values.get("derating"):
        _check_derating(reader, node.entries["derating"][1], derating)
    if curve := values.get("curve"):
        _check_curve(reader, node.entries["curve"][1], curve)


def _row(node: Node, number: int) -> Node:
    """The node of row `number` of a list."""
    return node.items[number] if isinstance(node, Listing) else node


def _check_ratings(reader: Reader, node: Node, ratings: tuple[InterruptRating, ...]) -> None:
    """One row a voltage, and never a larger current at a higher voltage."""
    rows = sorted(enumerate(ratings), key=lambda row: row[1].voltage)
    for (number, lower), (other, higher) in pairwise(rows):
        at = _row(node, max(number, other))
        if higher.voltage == lower.voltage:
            what = f"two interrupt ratings at {lower.voltage:g} V"
            reader.notes.say(at, what, "one row for each voltage")
        elif higher.current > lower.current:
            what = (f"{higher.current:g} A at {higher.voltage:g} V,"
                    f" but only {lower.current:g} A at {lower.voltage:g} V")
            reader.notes.say(at, what, "interrupt ratings that do not rise with voltage")


def _check_derating(reader: Reader, node: Node, derating: Points) -> None:
    """Rising temperature, factors that do not rise."""
    for number, (before, after) in enumerate(pairwise(derating), start=1):
        if after[0] <= before[0]:
            reader.notes.say(_row(node, number), "derating rows must be by rising temperature",
                             f"more than {before[0]:g} °C")
        elif after[1] > before[1]:
            reader.notes.say(_row(node, number), "derating cannot rise with temperature",
                             f"at most {before[1]:g}")


def _check_curve(reader: Reader, node: Node, curve: Curve) -> None:
    """Rising current, time that does not rise, and the fastest side never above the slowest."""
    sides = node.entries if isinstance(node, Table) else {}
    in_order = True
    for key, (_, side) in sides.items():
        points = curve.slowest if key.startswith("max") else curve.fastest
        in_order &= _check_side(reader, side, f"curve.{key}", points)
    if not (in_order and curve.fastest and curve.slowest):
        return
    for current in sorted({point[0] for point in curve.fastest + curve.slowest}):
        soonest = _time_at(curve.fastest, max(current, curve.fastest[0][0]))
        latest = _time_at(curve.slowest, min(current, curve.slowest[-1][0]))
        if soonest is not None and latest is not None and soonest > latest * (1 + 1e-9):
            fast, slow = (next((k for k in sides if k.startswith(b)), b) for b in ("min", "max"))
            what = (f"curve: at {current:g} A {fast} ({soonest:.4g} s) is above"
                    f" {slow} ({latest:.4g} s)")
            reader.notes.say(node, what, f"{fast} below {slow} everywhere")
            return


def _check_side(reader: Reader, node: Node, path: str, points: Points) -> bool:
    """Whether one boundary goes by rising current and time that does not rise; noted if not."""
    for number, (before, after) in enumerate(pairwise(points), start=1):
        if after[0] <= before[0]:
            reader.notes.say(_row(node, number), f"{path} must go by rising current",
                             f"more than {before[0]:g} A")
            return False
        if after[1] > before[1]:
            reader.notes.say(_row(node, number), f"{path}: more current cannot take longer",
                             f"at most {before[1]:g} s")
            return False
    return True


def _time_at(points: Points, current: float) -> float | None:
    """The time [s] at a current [A] on straight lines in log-log; None outside the points."""
    after = bisect_left(points, current, key=lambda point: point[0])
    if after == len(points):
        return None
    current_2, time_2 = points[after]
    if current_2 == current:
        return time_2
    if after == 0:
        return None
    current_1, time_1 = points[after - 1]
    share = log(current / current_1) / log(current_2 / current_1)
    return exp(log(time_1) + share * log(time_2 / time_1))
