"""From a study to the contents of one chart: which curves, marks and facts stand on the sheet.

Asks the study only; draws nothing.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import date
from typing import Any

from coordination.charts.chart import LONGEST, SHORTEST, Chart, Curve, Mark, Spot
from coordination.charts.conductors import cable_curves
from coordination.charts.naming import WHOLE, short
from coordination.charts.paths import DEVICES, Path
from coordination.charts.sampling import curve_of
from coordination.curves import Opening
from coordination.model import Element, Equipment
from coordination.report.wording import clean, number
from coordination.trace import Derived, Unknown, Value


def chart_of(study: Any, path: Path, when: date) -> Chart:
    """The chart of a path in the study's condition."""
    marks = tuple(_marks(study, path))
    reach = 1.6 * max((mark.current for mark in marks), default=0.0)
    notes: list[str] = []
    devices = tuple(_devices(study, path, reach, notes))
    shares = {each.name: _share_of_cable(study, path, each) for each in path.elements}
    cables, silent = cable_curves(study, path.elements, lambda each: shares[each.name])
    notes += silent
    return Chart(
        title=f"Time-current curves, {short(path.named)}",
        facts=_facts(study, path, when),
        curves=(*devices, *cables),
        marks=marks,
        spots=tuple(_spots(study, path)),
        notes=tuple(dict.fromkeys(notes)),
    )


def _facts(study: Any, path: Path, when: date) -> tuple[tuple[str, str], ...]:
    axis = f"current through {short(path.device.name)}" if path.device else "fault current"
    return (
        ("System", short(study.system.name)),
        ("File", clean(study.system.file)),
        ("Condition", short(study.condition.name)),
        ("Path", clean(path.named)),
        ("Axis", axis),
        ("Date", when.isoformat()),
    )


def _devices(study: Any, path: Path, reach: float, notes: list[str]) -> Iterator[Curve]:
    """One curve for devices that promise the same at the same share."""
    groups: dict[tuple[Any, ...], tuple[Opening, float, list[Element]]] = {}
    for element in path.devices:
        opening = study.opening(element)
        if isinstance(opening, Unknown):
            notes.append(f"{short(element.name)} has no curve: {', '.join(opening.missing)}")
            continue
        share = _share(study, path, element)
        key = (
            opening.fastest, opening.slowest, opening.melting_i2t, opening.clearing_i2t,
            round(share, 2),
        )  # fmt: skip
        groups.setdefault(key, (opening, share, []))[2].append(element)
    for opening, share, elements in groups.values():
        yield curve_of(opening, _label(opening, share, elements), share, reach)
        if abs(share - 1) > WHOLE:
            notes.append("what carries a share of the axis current is drawn at that share")


def _share(study: Any, path: Path, element: Element) -> float:
    """The device's current per ampere of the axis; 1 where it is not known."""
    if path.device is None or element.name == path.device.name:
        return 1.0
    for pair in study.pairs_below(path.device):
        if pair.up.name == element.name and isinstance(pair.share, Derived):
            return float(pair.share.value) or 1.0
    return 1.0


def _share_of_cable(study: Any, path: Path, cable: Element) -> float:
    """That of a device in series with it; 1 where none stands in its circuit."""
    known = [device for device in study.series_devices(cable) if device.kind in DEVICES]
    return _share(study, path, known[0]) if known else 1.0


def _label(opening: Opening, share: float, elements: Sequence[Element]) -> tuple[str, ...]:
    names = ", ".join(short(each.name) for each in elements[:2])
    if len(elements) > 2:
        names += f" and {len(elements) - 2} more"
    part = elements[0].part
    lines = [names, "" if part is None else short(part.id)]
    rated = getattr(part, "rated_current", None)
    if rated is not None and part is not None:
        lines[1] += f", {number(rated, 'A', part.written.get('rated_current', ''))}"
    if not _bounded(opening, fastest=True):
        lines.append("clears by; no earliest time")
    elif not _bounded(opening, fastest=False):
        lines.append("opens no sooner; no latest time")
    if abs(share - 1) > WHOLE:
        lines.append(f"carries {share:.0%}")
    return tuple(lines)


def _bounded(opening: Opening, *, fastest: bool) -> bool:
    side = opening.fastest if fastest else opening.slowest
    energy = opening.melting_i2t if fastest else opening.clearing_i2t
    return bool(side.points) or energy is not None


def _marks(study: Any, path: Path) -> Iterator[Mark]:
    """Load and fault currents of the device that the axis belongs to."""
    if path.device is None:
        return
    name = short(path.device.name)
    asked: tuple[tuple[str, str, Value], ...] = (
        ("load", "load", study.load(path.device)),
        ("fault", "min fault", study.fault_min_through(path.device)),
        ("fault", "max fault", study.duty(path.device)),
    )
    for kind, words, value in asked:
        if isinstance(value, Derived) and value.value > 0:
            text = f"{words} {number(value.value, 'A')}, {name}"
            yield Mark(text, "load" if kind == "load" else "fault", value.value)


def _spots(study: Any, path: Path) -> Iterator[Spot]:
    """What must open nothing: surges, starts, stalls and inrush of equipment on the path."""
    points = {point for each in path.elements for point in (each.start, each.end)}
    for equipment in study.system.equipment.values():
        if equipment.name in points and study.condition.draw.get(equipment.name, 1.0) > 0:
            yield from _moments(equipment)
            yield from _inrush(study, equipment)


def _moments(equipment: Equipment) -> Iterator[Spot]:
    name = short(equipment.name)
    for words in ("surge", "start", "stall"):
        row = getattr(equipment, words)
        if row is not None and SHORTEST <= row.time <= LONGEST:
            told = equipment.written
            current = number(row.current, "A", told.get(f"{words}.current", ""))
            time = number(row.time, "s", told.get(f"{words}.time", ""))
            yield Spot(f"{words} of {name}: {current}, {time}", row.current, row.time)


def _inrush(study: Any, equipment: Equipment) -> Iterator[Spot]:
    found = study.inrush(equipment)
    if found is None or isinstance(found.energy, Unknown) or isinstance(found.peak, Unknown):
        return
    energy, peak = found.energy.value, found.peak.value
    text = f"inrush of {short(equipment.name)}: {number(energy, 'A²s')}, peak {number(peak, 'A')}"
    yield Spot(text, (energy / SHORTEST) ** 0.5, SHORTEST, heat=True)

