"""What the figures of a part must satisfy among themselves; each contradiction is noted."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from catalogue.curve_checks import curve_problems
from catalogue.records import Curve, InterruptRating
from coordination.reading.fields import part_table
from coordination.reading.nodes import Listing, Node, Table
from coordination.reading.reader import Reader

Points = tuple[tuple[float, float], ...]


def check_part(reader: Reader, node: Table, kind: str, values: dict[str, Any]) -> None:
    """Note what contradicts itself in a part's `values`, read from `node`."""
    if ratings := values.get("interrupt_ratings"):
        _check_ratings(reader, node.entries["interrupt_ratings"][1], ratings)
    if derating := values.get("derating"):
        check_derating(reader, node.entries["derating"][1], derating)
    if factors := values.get("capacity_factors"):
        _check_rising(reader, node.entries["capacity_factors"][1], factors)
    if kind == "battery":
        _check_peukert(reader, node, values)
    if curve := values.get("curve"):
        columns = part_table(kind).fields["curve"].columns
        names = {side: said for said, side in columns}
        rating = values.get("rated_current")
        _check_curve(reader, node.entries["curve"][1], curve, names, rating)


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


def check_derating(reader: Reader, node: Node, derating: Points) -> None:
    """Rising temperature, factors that do not rise."""
    for number, (before, after) in enumerate(pairwise(derating), start=1):
        if after[0] <= before[0]:
            reader.notes.say(_row(node, number), "derating rows must be by rising temperature",
                             f"more than {before[0]:g} °C")
        elif after[1] > before[1]:
            reader.notes.say(_row(node, number), "derating cannot rise with temperature",
                             f"at most {before[1]:g}")


def _check_rising(reader: Reader, node: Node, factors: Points) -> None:
    """Rising temperature, factors that do not fall: a colder battery never gives more."""
    for number, (before, after) in enumerate(pairwise(factors), start=1):
        if after[0] <= before[0]:
            reader.notes.say(_row(node, number), "capacity_factors must be by rising temperature",
                             f"more than {before[0]:g} °C")
        elif after[1] < before[1]:
            reader.notes.say(_row(node, number), "capacity cannot fall with temperature",
                             f"at least {before[1]:g}")


def _check_peukert(reader: Reader, node: Table, values: dict[str, Any]) -> None:
    """A Peukert exponent is of lead-acid: a lithium battery hardly gives less at high currents."""
    if "peukert_exponent" not in values:
        return
    at = node.entries["peukert_exponent"][0]
    chemistry = values.get("chemistry", "")
    if chemistry and not chemistry.startswith("lead-acid"):
        what = f"peukert_exponent belongs to lead-acid; this battery is {chemistry}"
        reader.notes.say(at, what, "capacity_factors, capacity_tolerance")


def _check_curve(
    reader: Reader, node: Node, curve: Curve, names: dict[str, str], rating: float | None
) -> None:
    """What a curve cannot be, each problem at the point that has it."""
    for problem in curve_problems(curve, names, rating):
        _, *steps = problem.path.split(".")
        at = node
        for step in steps[:2]:
            if isinstance(at, Table) and step in at.entries:
                at = at.entries[step][1]
            elif step.isdigit():
                at = _row(at, int(step))
        reader.notes.say(at, problem.what, problem.hint)
