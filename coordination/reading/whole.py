"""What can only be checked once all is read: things that no circuit reaches, order along a bar."""

from __future__ import annotations

from coordination.model import Busbar, System
from coordination.reading.nodes import Node
from coordination.reading.reader import Reader
from coordination.reading.text import quoted


def check_whole(reader: Reader, system: System) -> None:
    """Note names that do not fit, and things that no circuit reaches."""
    failed = reader.references.check(reader.notes)
    if "point" not in failed and system.circuits:
        _check_touched(reader, system)
    if reader.order_at:
        _check_orders(reader, system)


def _check_touched(reader: Reader, system: System) -> None:
    """Note what no circuit reaches: it would be left out of every check without a word."""
    circuits = system.circuits.values()
    touched = {point for circuit in circuits for point in (circuit.start, circuit.end)}
    for name, (kind, at) in reader.references.declared.items():
        if kind in ("source", "busbar", "equipment") and name not in touched:
            what = f"no circuit leads to {kind} {quoted(name)}"
            reader.notes.say(at, what, "a circuit from or to it")
        elif kind == "converter" and not touched & {f"{name}.input", f"{name}.output"}:
            reader.notes.say(at, f"no circuit leads to converter {quoted(name)}",
                             f"a circuit from or to {name}.input or {name}.output")


def _check_orders(reader: Reader, system: System) -> None:
    """The order along a bar names every circuit that meets there, and no other."""
    meeting: dict[str, set[str]] = {name: set() for name in reader.order_at}
    for circuit in system.circuits.values():
        for point in (circuit.start, circuit.end):
            meeting.get(point, set()).add(circuit.name)
    for name, at in reader.order_at.items():
        bar = system.busbars.get(name)
        if bar is not None and bar.order:
            _check_order(reader, system, bar, at, meeting[name])


def _check_order(
    reader: Reader, system: System, bar: Busbar, at: Node, meeting: set[str]
) -> None:
    for name in bar.order:
        circuit = system.circuits.get(name)
        if circuit and circuit.start and circuit.end and name not in meeting:
            what = f"circuit {quoted(name)} does not meet busbar {quoted(bar.name)}"
            reader.notes.say(at, what, "circuits from or to it")
    missing = ", ".join(sorted(meeting.difference(bar.order)))
    if missing:
        what = f"the order along busbar {quoted(bar.name)} leaves out {quoted(missing)}"
        reader.notes.say(at, what, "every circuit that meets there")
