"""The schedule of cables, one row a leg: what each is, carries, loses, and what guards it."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any, NamedTuple

from coordination.errors import OutOfRange
from coordination.physics.adiabatic import adiabatic_limit, k_factor, time_to_limit
from coordination.physics.loads import drop_share
from coordination.report.block import margin_words
from coordination.report.wording import clean, compared, number
from coordination.schedules.facts import (
    EMPTY,
    Facts,
    cell,
    names,
    part_id,
    place_of,
    stated,
    yes_no,
)
from coordination.schedules.kinds import Schedule
from coordination.schedules.sheet import FILE, FINDINGS, PARTS, STUDY, Field, box, sheet
from coordination.trace import Derived, Value

if TYPE_CHECKING:
    from coordination.rules.finding import Finding, Findings

TITLE = "Cables, each leg"
WITHSTAND = "cable-withstand"


class _Leg(NamedTuple):
    facts: Facts
    element: Any
    leg: Any


def cables(findings: Findings, made: date) -> Schedule:
    """Two rows a cable, in the file's order; currents are the worst of all conditions."""
    facts = Facts(findings, made)
    return sheet("cables", TITLE, _FIELDS, _rows(facts))


def _rows(facts: Facts) -> Iterator[tuple[str, _Leg]]:
    study = facts.studies[0]
    for element in study.subjects("cable"):
        for leg in study.legs(element):
            yield element.name, _Leg(facts, element, leg)


def _area(row: _Leg) -> str:
    part = row.leg.part
    if part is None or not isinstance(row.leg.area, Derived):
        return EMPTY
    gauge = f" ({clean(part.awg)} AWG)" if part.awg else EMPTY
    return number(row.leg.area.value, "m²", part.written.get("area", "") or "1 mm²") + gauge


def _length(row: _Leg) -> str:
    if not isinstance(row.leg.length, Derived):
        return EMPTY
    back = row.leg.name == "return" and row.element.return_path.kind == "cable"
    stands = row.element.return_path if back else row.element
    return number(row.leg.length.value, "m", stands.written.get("length", ""))


def _ampacity(row: _Leg) -> Value | None:
    """What it carries as installed: the least of all conditions."""
    return row.facts.least(lambda study: study.ampacity(row.element, row.leg))


def _drop(row: _Leg) -> float | None:
    """What this leg loses at its design current when hot [V]."""
    load, resistance = row.facts.most(lambda s: s.load(row.element)), row.leg.resistance_high
    if isinstance(load, Derived) and isinstance(resistance, Derived):
        return load.value * resistance.value
    return None


def _drop_volts(row: _Leg) -> str:
    drop = _drop(row)
    return EMPTY if drop is None else number(drop, "V")


def _drop_share(row: _Leg) -> str:
    """Of the nominal voltage: the lowest that this cable has in any condition."""
    drop = _drop(row)
    nominal = row.facts.least(lambda study: study.island_nominal(row.element.start))
    if drop is None or not isinstance(nominal, Derived):
        return EMPTY
    return f"{drop_share(drop, nominal.value) * 100:.3g} %"


def _guards(end: str) -> Any:
    """Who stands between one end and the sources that feed it, over all conditions."""

    def cell_of(row: _Leg) -> str:
        found = [study.protectors(row.element, end) for study in row.facts.studies]
        devices = names(each for one in found for each in one.devices)
        bare = names(each for one in found for each in one.exposed)
        limited = names(each for one in found for each in one.limited)
        words = [f"none towards {bare}"] if bare else []
        words += [devices, f"limits itself: {limited}" if limited else EMPTY]
        return "; ".join(filter(None, words))

    return cell_of


def _judged(row: _Leg) -> Finding | None:
    """The verdict on what this leg outlasts; alike legs are judged once, others by name."""
    found = row.facts.of_rule(row.element.name, WITHSTAND)
    if found is None or found.verdict == "note":
        return None
    return found if found.reason.startswith(f"{row.leg.name} leg") or _alike(row) else None


def _alike(row: _Leg) -> bool:
    legs = row.facts.studies[0].legs(row.element)
    return all((leg.part, leg.runs) == (legs[0].part, legs[0].runs) for leg in legs)


def _withstand(row: _Leg) -> str:
    """ "126 ×10³ A²s of 27 ×10⁶ A²s": what its devices let through, what it bears, at worst."""
    found = _judged(row)
    if found is None:
        return EMPTY
    if not isinstance(found.found, Derived) or not isinstance(found.required, Derived):
        return EMPTY
    here, allowed = compared(found.found, found.required)
    return f"{here} of {allowed}, margin {margin_words(found)}"


def _survives(row: _Leg) -> str:
    """How long it bears the largest fault current, all heat kept; beyond 5 s that does not hold."""
    largest = [
        row.facts.most(lambda study, end=end: study.arriving(row.element, end))  # type: ignore[misc]
        for end in ("start", "end")
    ]
    known = [each.value for each in largest if isinstance(each, Derived)]
    try:
        borne = _borne(row)
        if borne is None or len(known) < len(largest):
            return EMPTY
        time = time_to_limit(borne, max(known))
    except OutOfRange:
        return EMPTY
    return f"more than {_ADIABATIC:g} s" if time > _ADIABATIC else number(time, "s")


def _borne(row: _Leg) -> float | None:
    """I²t [A²s] that the leg bears, by what its verdict rests on. Raises OutOfRange."""
    found = _judged(row)
    limit = None if found is None else found.required
    if not isinstance(limit, Derived) or not isinstance(row.leg.area, Derived):
        return None
    if limit.unit == "A²s":
        return limit.value
    rated = row.leg.insulation_temperature
    if limit.unit != "°C" or not isinstance(rated, Derived):
        return None
    factor = k_factor(_initial(row, rated.value), limit.value)
    return adiabatic_limit(row.leg.area.value * row.leg.runs, factor)


def _initial(row: _Leg, rated: float) -> float:
    """Its temperature [°C] under load; the insulation's where that is unknown."""
    warm = row.facts.most(lambda study: study.conductor_temperature(row.element, row.leg))
    return min(warm.value, rated) if isinstance(warm, Derived) else rated


#: Longest time [s] for which heat is taken to stay in the copper (IEC 60364-4-43, from memory).
_ADIABATIC = 5.0


def _fields() -> Iterator[Field]:
    yield Field("cable", "which one", FILE, lambda r: clean(r.element.name))
    yield Field("leg", "there or back", FILE, lambda r: r.leg.name)
    yield from _what_it_is()
    yield Field(
        "load", "design current", STUDY, lambda r: cell(r.facts.most(lambda s: s.load(r.element)))
    )
    yield Field("ampacity", "continuous current as installed", STUDY, lambda r: cell(_ampacity(r)))
    yield Field("drop", "in this leg, hot, at its load", STUDY, _drop_volts)
    yield Field("drop %", "the same, of the nominal voltage", STUDY, _drop_share)
    yield box("drop measured", "at the load named beside it")
    yield Field("guarded at from", "devices towards the sources", STUDY, _guards("start"))
    yield Field("guarded at to", "devices towards the sources", STUDY, _guards("end"))
    yield Field(
        "worst fault, borne", "let-through or heat until it is cleared", FINDINGS, _withstand
    )
    yield Field("bears fault max for", "largest fault at either end", FINDINGS, _survives)
    yield box("colour, lug, tool", "as fitted")
    yield box("length as built", "against the design's")
    yield box("label", "marked at both ends")
    yield Field("verdicts", "of every rule", FINDINGS, lambda r: r.facts.verdicts(r.element.name))
    yield Field("note", "waivers", FINDINGS, lambda r: r.facts.notes(r.element.name))


def _what_it_is() -> Iterator[Field]:
    yield Field("from", "where it starts", FILE, lambda r: clean(r.element.start))
    yield Field("to", "where it ends", FILE, lambda r: clean(r.element.end))
    yield Field("part", "what to buy", FILE, lambda r: part_id(r.leg.part))
    yield Field("area", "conductor", PARTS, _area)
    yield Field("runs", "equal cables side by side", FILE, lambda r: str(r.leg.runs))
    yield Field(
        "conductor", "metal and stranding", PARTS,
        lambda r: clean(", ".join(filter(None, (
            getattr(r.leg.part, "material", None), getattr(r.leg.part, "stranding", None)
        )))),
    )  # fmt: skip
    yield Field(
        "insulation", "highest temperature", PARTS,
        lambda r: stated(r.leg.part, "insulation_temperature", "°C"),
    )  # fmt: skip
    yield Field("length", "one way", FILE, _length)
    yield Field("place", "where it runs", FILE, lambda r: place_of(r.element))
    yield Field(
        "ambient", "air there", FILE, lambda r: cell(r.facts.studies[0].ambient(r.element))
    )
    yield Field("bundle", "circuits together", FILE, lambda r: str(r.element.bundle))
    yield Field("sheathed", "in conduit or sheath", FILE, lambda r: yes_no(r.element.sheathed))


_FIELDS = tuple(_fields())
