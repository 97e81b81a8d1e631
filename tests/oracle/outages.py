"""What single events leave of a generated system, by taking things out and walking all of it anew.

Shares nothing with the engine: every event is tried one by one on the file's own words, and each
time the whole system is walked from every source.
"""

from __future__ import annotations

from collections.abc import Iterator
from random import Random
from typing import Any, NamedTuple

from tests.oracle.generate import Dict, make
from tests.oracle.plant import PROTECTIVE, Plant, Supply

ELECTRONIC = ("lfp", "nmc", "lto", "sodium-ion")


class Seen(NamedTuple):
    """What is so at one moment: how each load fares, which sources run without a battery, ..."""

    loads: dict[str, str]
    alone: dict[str, frozenset[str]]
    isolated: frozenset[str]
    together: dict[str, frozenset[str]]
    sums: dict[str, tuple[float, float]]


def with_contactors(seed: int) -> Dict:
    """A generated system whose batteries have chemistries, and some of them contactors."""
    system, dice = make(seed), Random(seed + 7)
    for part in system["parts"].values():
        if part.get("kind") == "battery" and dice.random() < 0.8:
            part["chemistry"] = dice.choice(("lfp", "lead-acid agm", "nmc"))
    batteries = [name for name, each in system["sources"].items() if "part" in each]
    for circuit in system["circuits"].values():
        for entry in circuit["parts"]:
            if "disconnect" in entry and dice.random() < 0.35:
                ends = [end for end in (circuit["from"], circuit["to"]) if end in batteries]
                entry["operated_by"] = ends[0] if ends else dice.choice(batteries)
    return system


def events(plant: Plant, condition: str) -> Iterator[tuple[str, str, set[str], set[str]]]:
    """(kind, name, opened, lost) of everything that can happen."""
    closed = [e for e in plant.elements if plant.closed(e, condition)]
    gone = plant.conditions[condition].get("without", ())
    present = [s for s in plant.supplies if s.name not in gone]
    hand = {e.name for e in closed if e.kind == "disconnect" and "operated_by" not in e.entry}
    for element in closed:
        kind = "device" if element.kind in PROTECTIVE else element.kind
        if kind in ("device", "channel") or element.name in hand:
            yield "switch" if element.name in hand else kind, element.name, {element.name}, set()
    trips: dict[str, tuple[set[str], set[str]]] = {}
    for supply in plant.supplies:
        driven = [e for e in plant.elements if e.entry.get("operated_by") == supply.name]
        opened = {e.name for e in driven if e in closed}
        if len(opened) > 1:
            yield from (("contactor", name, {name}, set()) for name in opened)
        if opened:
            trips[supply.name] = (opened, set())
        elif supply in present and not driven and _electronic(supply):
            trips[supply.name] = (set(), {supply.name})
    for name, (opened, lost) in trips.items():
        yield "trip", name, opened, lost
    yield from _together(plant, condition, trips)
    for supply in present:
        converts = supply.name in (plant.raw.get("converters") or {})
        yield "converter" if converts else "source", supply.name, set(), {supply.name}
    if hand:
        yield "all switches", "all switches off", hand, set()


def _electronic(supply: Supply) -> bool:
    return supply.part is not None and supply.part.get("chemistry") in ELECTRONIC


def _together(plant: Plant, condition: str, trips: Any) -> Iterator[Any]:
    """Joined batteries whose electronics open at the same limit."""
    whole = look(plant, condition, set(), set()).together
    banks: dict[frozenset[str], list[str]] = {}
    for name in trips:
        if name in whole:
            banks.setdefault(whole[name], []).append(name)
    for names in banks.values():
        if len(names) > 1:
            opened = set().union(*(trips[name][0] for name in names))
            lost = set().union(*(trips[name][1] for name in names))
            yield "joint trip", frozenset(names), opened, lost


def look(plant: Plant, condition: str, opened: set[str], lost: set[str]) -> Seen:
    """The whole system walked with these elements open and these sources gone."""
    gone = {*plant.conditions[condition].get("without", ()), *lost}
    around: dict[str, set[str]] = {point: set() for point in plant.points}
    for e in plant.elements:
        if plant.closed(e, condition) and e.name not in opened:
            around[e.start].add(e.end)
            around[e.end].add(e.start)
    place: dict[str, frozenset[str]] = {}
    for point in plant.points:
        if point not in place:
            piece = _walk(around, point)
            place |= dict.fromkeys(piece, piece)
    batteries = {s.point for s in plant.supplies if s.part is not None and s.name not in gone}
    limited = {s.name: s for s in plant.supplies if s.part is None and s.name not in gone}
    converters = {n for n in plant.raw.get("converters") or {} if n not in gone}
    own = batteries | {s.point for n, s in limited.items() if n not in converters}
    live: set[frozenset[str]] = {place[point] for point in own}
    while more := {place[f"{n}.output"] for n in converters if place[f"{n}.input"] in live} - live:
        live |= more
    seen = Seen({}, {}, frozenset(), {}, {})
    draws = {n: (p, a) for n, (p, a) in plant.draws.items() if n not in gone}
    amps = plant.drawn(condition)
    buffered = {place[point] for point in batteries}
    running = {n: s for n, s in limited.items()
               if n not in converters or place[f"{n}.input"] in live}  # fmt: skip
    starved: dict[frozenset[str], str] = {}

    def state(piece: frozenset[str], above: tuple[frozenset[str], ...] = ()) -> str:
        if piece in buffered:
            return "carried"
        if piece in above:
            return "unknown"
        fed, known = 0.0, True
        for name, supply in running.items():
            if place[supply.point] == piece:
                before = (
                    state(place[f"{name}.input"], (*above, piece))
                    if name in converters else "carried"
                )  # fmt: skip
                known = known and before != "unknown"
                fed += supply.limit if before != "starved" else 0.0
        drawn = sum(amps[p] for p, _ in draws.values() if place[p] == piece)
        return "unknown" if not known else "carried" if drawn <= fed + 1e-6 else "starved"

    for name, (point, _) in draws.items():
        if name not in converters:
            piece = place[point]
            if piece in live and piece not in buffered and piece not in starved:
                starved[piece] = state(piece)
            seen.loads[name] = (
                "dark" if piece not in live else "battery" if piece in buffered
                else starved[piece]
            )  # fmt: skip
    for name, supply in running.items():
        piece = place[supply.point]
        if piece not in buffered:
            seen.alone[name] = frozenset(n for n, (p, _) in draws.items() if p in piece)
    standing = [*((s.name, s.point) for s in plant.supplies if s.name not in gone)]
    lonely = set()
    for point in batteries:
        others = [n for n, p in standing if p in place[point] and p != point]
        users = [n for n, (p, _) in draws.items() if p in place[point]]
        if not others and not users:
            lonely.add(point)
    by_piece = {n: frozenset(m for m, q in standing if place[q] == place[p]) for n, p in standing}
    return seen._replace(isolated=frozenset(lonely), together=by_piece)


def _walk(around: dict[str, set[str]], start: str) -> frozenset[str]:
    found, waiting = {start}, [start]
    while waiting:
        for point in around[waiting.pop()] - found:
            found.add(point)
            waiting.append(point)
    return frozenset(found)
