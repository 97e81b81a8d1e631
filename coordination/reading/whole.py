"""What can only be checked once all is read: things that no circuit reaches, order along a bar."""

from __future__ import annotations

from coordination.model import System
from coordination.reading.nodes import Node
from coordination.reading.reader import Reader
from coordination.reading.text import quoted


def check_whole(reader: Reader, system: System) -> None:
    """Note names that do not fit, and things that no circuit reaches."""
    failed = reader.references.check(reader.notes)
    if "point" not in failed and system.circuits:
        _check_touched(reader, system)
    for bar in system.busbars.values():
        if bar.order:
            _check_order(reader, system, bar.name, reader.order_at[bar.name])


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


def _check_order(reader: Reader, system: System, bar: str, at: Node) -> None:
    """The order along a bar names every circuit that meets there, and no other."""
    meeting = {c.name for c in system.circuits.values() if bar in (c.start, c.end)}
    order = system.busbars[bar].order
    for name in order:
        if name in system.circuits and name not in meeting:
            reader.notes.say(at, f"circuit {quoted(name)} does not meet busbar {quoted(bar)}",
                             "circuits from or to it")
    missing = ", ".join(sorted(meeting - set(order)))
    if missing:
        reader.notes.say(at, f"the order along busbar {quoted(bar)} leaves out {missing}",
                         "every circuit that meets there")
