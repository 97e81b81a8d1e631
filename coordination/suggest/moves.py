"""The changes that may cure a finding: what stands at its place, or near it, and what else could.

Never offered: opening, closing or leaving out anything, another position as drawn, other loads,
sources or conditions, a waiver. A fail is not cured by a subject that has gone.
"""

from __future__ import annotations

from collections.abc import Iterator
from math import floor
from typing import TYPE_CHECKING, Any, Final

from coordination.model import PROTECTIVE
from coordination.suggest.change import Change, Changes, rank
from coordination.suggest.document import CannotEdit, Document
from coordination.suggest.editing import edited_text
from coordination.suggest.related import related
from coordination.suggest.shelf import WIDEST, Choice, Needs, Shelf, size_of, stated
from coordination.trace import Derived

if TYPE_CHECKING:
    from coordination.model import Element, System
    from coordination.suggest.judging import Bench, Violation

#: Distance [m] along the conductor at which a device is added at a battery: within the 7 in
#: (178 mm) that a bare conductor may be long, 33 CFR 183.455.
AT_BATTERY: Final = 0.12
_AT_BATTERY_TEXT: Final = "120 mm"
#: A cable is not shortened below this [m].
SHORTEST: Final = 0.2


class Moves:
    """The changes of one system.

    shorten -- by which share a cable may be shortened at most [1]
    choices -- what was found for each place that was looked at
    refused -- changes that cannot be written, with the reason
    """

    def __init__(self, bench: Bench, document: Document, shelf: Shelf, shorten: float) -> None:
        self.bench, self.document, self.shelf = bench, document, shelf
        self.shorten = shorten
        self.choices: dict[str, Choice] = {}
        self.refused: dict[str, str] = {}
        self._of: dict[tuple[str, bool], tuple[Change, ...]] = {}
        self._elements = {each.name: each for each in bench.system.elements()}

    def curing(self, violation: Violation, changes: Changes) -> tuple[Change, ...]:
        """Changes of what this violation rests on, the preferred ones first."""
        study = self.bench.study(changes, violation.finding.condition)
        names = self.bench.edited(changes).names
        found: dict[Change, None] = {}
        for spot in related(violation.finding.subject, study):
            name = names.get(spot.thing.name, spot.thing.name)
            found |= dict.fromkeys(self.at(name, guard=spot.guard))
        return tuple(sorted(found, key=lambda change: rank(frozenset((change,)))))

    def at(self, name: str, *, guard: bool) -> tuple[Change, ...]:
        """Every change of one element or busbar as drawn, and devices beside it if asked."""
        key = name, guard
        if key not in self._of:
            self._of[key] = tuple(filter(self._can_be_written, self._all_at(name, guard)))
        return self._of[key]

    def _can_be_written(self, change: Change) -> bool:
        try:
            edited_text(self.document, self.bench.system, frozenset((change,)))
        except CannotEdit as reason:
            self.refused.setdefault(change.subject, str(reason))
            return False
        return True

    def _all_at(self, name: str, guard: bool) -> Iterator[Change]:
        system = self.bench.system
        if name in system.busbars:
            yield from self._others(system.busbars[name])
            return
        element = self._elements.get(name)
        if element is None or element.part is None:
            return
        if element.kind in PROTECTIVE:
            yield from self._devices(element)
            yield from self._placed(element)
        elif element.kind == "cable":
            yield from self._cables(element)
            yield from self._lengths(element)
        else:
            yield from self._others(element)
        if guard:
            yield from self._guards(element)

    def needs(self, thing: Any) -> Needs:
        """What the thing must bear, at worst of all conditions."""
        studies = self.bench.studies.values()
        if thing.name in self.bench.system.busbars:
            voltage = _most(study.voltage_max(thing.name) for study in studies)
            return Needs(_most(study.section_load(thing) for study in studies), voltage)
        return Needs(
            _most(study.load(thing) for study in studies),
            _most(study.voltage_max(thing) for study in studies),
            _most(study.duty(thing) for study in studies) if thing.kind in PROTECTIVE else None,
        )

    def _chosen(self, thing: Any, choice: Choice, sort: str) -> Iterator[Change]:
        self.choices[thing.name] = choice
        for part in choice.parts:
            size = size_of(part, thing.part)
            yield Change(sort, thing.name, part.id, part=part, was=thing.part.id, size=size)

    def _devices(self, element: Any) -> Iterator[Change]:
        choice = self.shelf.devices(element.part, self.needs(element))
        if element.kind == "breaker" and self._worked(element.name):
            # Whoever opens it in a condition needs something that can be opened.
            parts = tuple(part for part in choice.parts if part.kind == "breaker")
            choice = choice._replace(parts=parts)
        yield from self._chosen(element, choice, "part")

    def _worked(self, name: str) -> bool:
        conditions = self.bench.system.conditions.values()
        return any(name in (*each.open, *each.close) for each in conditions)

    def _others(self, thing: Any) -> Iterator[Change]:
        yield from self._chosen(thing, self.shelf.others(thing.part, self.needs(thing)), "part")

    def _cables(self, element: Any) -> Iterator[Change]:
        back, part = element.return_path, element.part
        other = back.kind in ("path", "none")
        if other or (back.kind == "cable" and (back.part.id, back.runs) != (part.id, element.runs)):
            was = back.part.id if back.part is not None else "another path"
            size = size_of(part, back.part) if back.part is not None else 1.0
            yield Change("return", element.name, part.id, part=part, was=was, size=size)
        yield from self._chosen(element, self.shelf.cables(part, self.needs(element)), "cable")

    def _lengths(self, element: Element) -> Iterator[Change]:
        length = element.length or 0.0
        for share in (self.shorten / 2, self.shorten):
            # Written to the centimetre, and never shortened by more than was said.
            shorter = floor(length * (1 - share) * 100 + 1 - 1e-6) / 100
            if self.shorten > 0 and SHORTEST <= shorter < length:
                text = f"{shorter:g} m"
                yield Change("length", element.name, value=shorter, text=text,
                             was=f"{length:g} m", size=1 - shorter / length)  # fmt: skip

    def _placed(self, element: Element) -> Iterator[Change]:
        """Nearer to the battery; or at the other end of its circuit, where nothing says how far."""
        if element.distance is not None:
            if element.distance > AT_BATTERY:
                was = element.written.get("distance", "")
                yield Change("distance", element.name, value=AT_BATTERY, text=_AT_BATTERY_TEXT,
                             was=was)  # fmt: skip
            return
        circuit = self.bench.system.circuits[element.circuit]
        last, here = len(circuit.elements), element.number - 1
        if last < 2 or self._named_elsewhere(circuit.name, 0):
            return
        for index in (0, last):
            end = circuit.start if index == 0 else circuit.end
            if index not in (here, here + 1) and not self._battery(end):
                yield Change("moved", element.name, index=index, was=f"part {here + 1}")

    def _guards(self, element: Element) -> Iterator[Change]:
        system, circuit = self.bench.system, self.bench.system.circuits[element.circuit]
        last = len(circuit.elements)
        figures = self._usual_figures(system)
        needs = self._needs_of_added(element)
        top = self._bears(element)
        choice = self.shelf.added_fuses(figures, needs, top)
        self.choices[f"{circuit.name} (added)"] = choice
        for index in self._fed_places(element, last):
            near = circuit.elements[max(index - 1, 0) : index + 1]
            if any(each.kind in PROTECTIVE for each in near):
                continue
            if not self._named_elsewhere(circuit.name, index):
                for part in choice.parts:
                    yield self._added(circuit, index, part)

    def _fed_places(self, element: Element, last: int) -> list[int]:
        """Places between an element and the ends from which a source feeds it."""
        places: set[int] = set()
        for study in self.bench.studies.values():
            for end, here in (("start", (0, element.number - 1)), ("end", (element.number, last))):
                side = study.protectors(element, end)
                if side.devices or side.exposed or side.limited:
                    places.update(here)
        return sorted(places)

    def _added(self, circuit: Any, index: int, part: Any) -> Change:
        system, document_place = self.bench.system, self.bench.places.get(circuit.name)
        end = {0: circuit.start, len(circuit.elements): circuit.end}.get(index, "")
        text, place = "", ""
        if self._battery(end):
            text = _AT_BATTERY_TEXT
            own = system.sources[end].place
            if own.name in system.places and own != document_place:
                place = own.name
        name = self._new_name(f"{circuit.name} fuse")
        return Change("device", circuit.name, part.id, index=index, value=AT_BATTERY if text else 0,
                      text=text, part=part, name=name, place=place, size=1.0)  # fmt: skip

    def _new_name(self, wanted: str) -> str:
        system = self.bench.system
        groups = (system.sources, system.busbars, system.equipment, system.converters)
        taken = {name for group in (*groups, system.circuits) for name in group}
        name, number = wanted[:90], 2
        while name in taken or name in self._elements:
            name, number = f"{wanted[:90]} {number}", number + 1
        return name

    def _battery(self, point: str) -> bool:
        source = self.bench.system.sources.get(point)
        return source is not None and source.part is not None

    def _needs_of_added(self, element: Element) -> Needs:
        found = self.needs(element)
        return Needs(found.load, found.voltage)

    def _bears(self, element: Element) -> float:
        """The largest rating [A] that is tried for a device added beside an element."""
        if element.kind != "cable":
            return WIDEST * (self.needs(element).load or 0.0) or 1e9
        studies = self.bench.studies.values()
        legs = (study.ampacity(element, leg) for study in studies for leg in study.legs(element))
        return WIDEST * (_most(legs) or 1e9)

    def _usual_figures(self, system: System) -> frozenset[str]:
        """What every fuse and breaker of the file states: an added one must state it too."""
        parts = [each.part for each in system.elements() if each.kind in PROTECTIVE]
        sets = [stated(part) for part in parts if part is not None]
        always = frozenset(("rated_current", "interrupt_ratings", "curve"))
        return always | frozenset.intersection(*sets) if sets else always

    def _named_elsewhere(self, circuit: str, index: int) -> bool:
        """Whether a number or a junction that would move is used somewhere in the file."""
        system = self.bench.system
        elements = system.circuits[circuit].elements[index:]
        moving = {f"{circuit}@{each.number}" for each in elements}
        moving |= {each.name for each in elements if each.name == f"{circuit}/{each.number}"}
        moving.discard(f"{circuit}@{index}")
        used = {waiver.subject for waiver in system.waivers}
        for condition in system.conditions.values():
            used |= {*condition.open, *condition.close}
        for each in system.circuits.values():
            used |= {each.start, each.end}
        return not moving.isdisjoint(used)


def _most(values: Any) -> float | None:
    """The largest of the values that are known."""
    return max((each.value for each in values if isinstance(each, Derived)), default=None)

