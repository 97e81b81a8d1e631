"""What flows between two sides of different charge when the link between them is closed.

Max bound: one side full and charging, the other at low charge, least resistances, no load.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from coordination.model import Element, Source
from coordination.network import Feed, connect
from coordination.physics import charging, sources
from coordination.study.combine import NODAL
from coordination.study.figures import Figures, number
from coordination.study.solve import Faults
from coordination.trace import Derived, Unknown, Value, reckon, unknowns
from coordination.trace import Source as Origin

if TYPE_CHECKING:
    from coordination.network import Network
    from coordination.study.study import Study

PART_DATA = Origin("part data")


class Equalising(NamedTuple):
    """One direction of what may flow over a link, at the moment it is closed.

    giving, taking -- batteries of the fuller and of the emptier side
    current        -- through the link [A]
    each           -- battery to the current [A] that it gives or takes; a bound for several
    through        -- element to the current [A] through it, of those that carry any
    time_constant  -- in which it falls to 37 % [s]; of one battery on each side
    """

    giving: tuple[Source, ...]
    taking: tuple[Source, ...]
    current: Value
    each: dict[str, Value]
    through: dict[str, Value]
    time_constant: Value


def equalising(element: Element, study: Study) -> tuple[Equalising, ...]:
    """Both directions over a closed switch; empty unless it alone joins two sides with batteries.
    """
    apart = _apart(element, study)
    if apart is None:
        return ()
    network, start, end = apart
    return tuple(
        _direction(element, study, network, full, empty)
        for full, empty in ((start, end), (end, start))
    )


def joins_with_others(element: Element, study: Study) -> bool:
    """Whether a switch joins two sides with batteries, but other switches closed join them too."""
    links = {each.name for each in study.subjects("disconnect") if each.normally_open}
    return (
        _apart(element, study) is None
        and _apart(element, study, frozenset(links) | {element.name}) is not None
    )


def _apart(
    element: Element, study: Study, opened: frozenset[str] = frozenset()
) -> tuple[Network, int, int] | None:
    """The network with the switch open (and others), and the points at its two ends."""
    if not study.closed(element):
        return None
    condition = study.condition
    opened |= {element.name}
    open_again = replace(
        condition,
        close=tuple(name for name in condition.close if name not in opened),
        open=(*condition.open, *opened),
    )
    system = replace(
        study.system, conditions={**study.system.conditions, condition.name: open_again}
    )
    network = connect(system, condition.name, study.network.loops)
    start, end = network.index[element.start], network.index[element.end]
    shape = Figures(network).shape
    sides = {shape.island[feed.point] for feed in network.feeds}
    ends = {shape.island[start], shape.island[end]}
    return (network, start, end) if len(ends) == 2 and ends <= sides else None


def _direction(
    element: Element, study: Study, network: Network, full: int, empty: int
) -> Equalising:
    figures = Figures(network)
    island = figures.shape.island
    giving = [feed for feed in network.feeds if island[feed.point] == island[full]]
    taking = [feed for feed in network.feeds if island[feed.point] == island[empty]]
    missing = unknowns([v for f in giving for v in (f.emf_high, f.resistance_low)])
    missing += unknowns([v for f in taking for v in (f.emf_low, f.resistance_low)])
    chargers = [i for i in network.injections if island[i.point] == island[full]]
    missing += unknowns([injection.limit for injection in chargers])
    words = f"equalising current over {element.name}, at most"
    names = tuple(f.source for f in giving), tuple(f.source for f in taking)
    if missing:
        unknown = Unknown(words, missing)
        return Equalising(*names, unknown, {}, {}, Unknown("time constant", missing))
    fed = [(f.point, number(f.emf_high) / number(f.resistance_low)) for f in giving]
    fed += [(i.point, number(i.limit)) for i in chargers]
    fed += [(f.point, number(f.emf_low) / number(f.resistance_low)) for f in taking]
    current = _current(element, study, figures, fed, full, empty, words)
    each, through = _flows(study, fed, {f.source.name: f.emf_high for f in giving})
    return Equalising(
        *names, current, each, through, _time_constant(giving, taking, current)
    )


def _current(
    element: Element,
    study: Study,
    figures: Figures,
    fed: list[tuple[int, float]],
    full: int,
    empty: int,
    words: str,
) -> Value:
    """(E_1 − E_2) / (R_1 + R_2 + R_c) of what stands on both sides of the switch."""
    faults = Faults(figures.low, fed)
    network = study.network
    own = network.branches[study._figures.branch_of[element.name]].low
    inputs: list[Value] = []
    for side, point in ((1, full), (2, empty)):
        at = network.points[point]
        ohms = 1.0 / faults.conductance[point]
        what = "full and charging" if side == 1 else "low"
        inputs += [
            Derived(f"voltage at {at}, {what}", f"E_{side}", faults.short[point] * ohms, "V",
                    source=NODAL),
            Derived(f"least resistance seen from {at}", f"R_{side}", ohms, "Ω", source=NODAL),
        ]  # fmt: skip
    inputs.append(Derived(f"least resistance of {element.name}", "R_c", own, "Ω", source=NODAL))
    return reckon(
        lambda e1, r1, e2, r2, own: charging.driven_current(e1, e2, r1 + r2 + own),
        words, "I", "A", "(E_1 − E_2) / (R_1 + R_2 + R_c)",
        inputs[0], inputs[1], inputs[2], inputs[3], inputs[4], source=sources.OHM,
    )  # fmt: skip


def _flows(
    study: Study, fed: list[tuple[int, float]], full: dict[str, Value]
) -> tuple[dict[str, Value], dict[str, Value]]:
    """Current [A] of each battery and through each element, the switch closed, nothing drawn."""
    figures = study._figures
    solved = figures.low
    current = solved.gather(fed)
    voltages = solved.voltages(current)
    flows = solved.flows(current, voltages)
    given_by = dict[int, float]()
    for point, amount in fed:
        given_by[point] = given_by.get(point, 0.0) + amount
    each: dict[str, Value] = {}
    for feed in study.network.feeds:
        if feed.point in given_by:
            emf = number(full.get(feed.source.name, feed.emf_low))
            amount = abs(emf - voltages[feed.point]) / number(feed.resistance_low)
            words = f"equalising current of {feed.source.name}, at most"
            each[feed.source.name] = Derived(words, "I", amount, "A", source=NODAL)
    through: dict[str, Value] = {
        branch.element.name: Derived(
            f"equalising current through {branch.element.name}, at most", "I", abs(flow), "A",
            source=NODAL,
        )
        for branch, flow in zip(study.network.branches, flows, strict=True)
        if abs(flow) > 1e-6
    }  # fmt: skip
    return each, through


def _time_constant(giving: list[Feed], taking: list[Feed], current: Value) -> Value:
    """Of the current between two sides, by the resistances that it was found with."""
    if isinstance(current, Unknown):
        return Unknown("time constant of the equalising current", current.missing)
    ohms = sum(item.value for item in current.inputs if item.unit == "Ω")
    total = Derived("resistance of both and the way", "R", ohms, "Ω", source=sources.OHM)
    return time_constant_of(giving, taking, total)


def time_constant_of(giving: list[Feed], taking: list[Feed], resistance: Derived) -> Value:
    """Of one battery on each side [s], each taken for a capacitor between empty and full."""
    words = "time constant of the equalising current"
    if len(giving) > 1 or len(taking) > 1:
        several = "the time constant with several batteries on a side is not computed"
        return Unknown(words, (several,))
    charges: list[Value] = []
    for side, feed in ((1, giving[0]), (2, taking[0])):
        part, name = feed.source.part, feed.source.name
        if part is None or part.capacity is None or part.emf is None:
            return Unknown(words, (f"{name}: capacity and emf",))
        swing = part.emf.max - part.emf.min
        if swing <= 0.0:
            return Unknown(words, (f"{name}: emf between empty and full",))
        charges += [
            Derived(f"capacity of {name}", f"Q_{side}", part.capacity, "A·s",
                    source=PART_DATA, written=part.written.get("capacity", "")),
            Derived(f"open-circuit voltage of {name}, full less low", f"dE_{side}", swing, "V",
                    source=PART_DATA),
        ]  # fmt: skip
    return reckon(
        charging.equalising_time_constant, words, "τ", "s", "R / (dE_1 / Q_1 + dE_2 / Q_2)",
        *charges, resistance, source=sources.RC_CIRCUIT,
    )  # fmt: skip
