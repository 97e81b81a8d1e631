"""The network's shape: frozen records that `study` solves."""

from __future__ import annotations

from collections.abc import Mapping

from catalogue.frozen import dataclass
from coordination.model import Condition, Converter, Element, Equipment, Source, System
from coordination.network.loop import Loops
from coordination.trace import Value


@dataclass(frozen=True, slots=True)
class Branch:
    """An element between two points, closed in this condition.

    low, high  -- loop resistance [Ω] for the max bound (20 °C) and the min bound (hot); what is
                  not stated counts 0. `Network.loops` gives the same figures with derivation
    missing    -- what would have to be known for `high`, one phrase each; empty if it is known
    inductance -- of the loop [H]; what is not known counts 0 and is named in `uncoupled`
    """

    element: Element
    start: int
    end: int
    low: float
    high: float
    missing: tuple[str, ...]
    inductance: float
    uncoupled: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Feed:
    """A battery at its point: open-circuit voltage [V] and resistance [Ω], both bounds."""

    source: Source
    point: int
    emf_low: Value
    emf_high: Value
    resistance_low: Value
    resistance_high: Value


@dataclass(frozen=True, slots=True)
class Injection:
    """A current-limited source at its point: its limit [A] and the voltage it holds [V]."""

    source: Source | Converter
    point: int
    limit: Value
    voltage: Value


@dataclass(frozen=True, slots=True)
class Draw:
    """Equipment or a converter's input at its point: the current it draws here [A]."""

    subject: Equipment | Converter
    point: int
    current: Value


@dataclass(frozen=True, slots=True)
class Network:
    """One condition: point names by index, closed branches, open elements, sources and draws.

    loops -- the derivation of every element's loop resistance and inductance
    """

    system: System
    condition: Condition
    points: tuple[str, ...]
    index: Mapping[str, int]
    branches: tuple[Branch, ...]
    open_elements: tuple[Element, ...]
    feeds: tuple[Feed, ...]
    injections: tuple[Injection, ...]
    draws: tuple[Draw, ...]
    loops: Loops
