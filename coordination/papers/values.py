"""Tables of points and devices: the worst number over all conditions, and in which it is."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from coordination.languages.language import ENGLISH
from coordination.papers.places import Places
from coordination.papers.table import Cell, Row, Table, table
from coordination.report.anchors import DEVICE, FINDING, POINT, anchor
from coordination.report.wording import UNKNOWN, amount, clean
from coordination.trace import Derived, Unknown

if TYPE_CHECKING:
    from coordination.languages.language import Language
    from coordination.model import Element
    from coordination.trace import Value

DEVICES = ("fuse", "breaker", "channel", "disconnect")

Studies = Mapping[str, Any]
#: Asks one study for one number of the row's subject.
Ask = Callable[[Any], "Value"]


def points_table(studies: Studies, words: Language, places: Places) -> Table:
    """Every point of the system, by the order of the drawing."""
    keys = ("point", "fault_max", "fault_min", "voltage_max", "time_constant", "load_voltage")
    rows = [
        Row(
            (_name(POINT, name), *_point(studies, name, words)),
            places.claim(anchor(FINDING, name)),
        )
        for name in next(iter(studies.values())).network.points
    ]
    return table(words("points.caption"), [words(f"points.{key}") for key in keys], rows)


def devices_table(
    studies: Studies, verdicts: Mapping[str, str], words: Language, places: Places
) -> Table:
    """Every fuse, breaker, channel and switch; `verdicts`: the worst of each subject."""
    keys = ("device", "part", "place", "duty", "load", "fault_through", "verdict")
    rows = [
        _device_row(studies, element, verdicts, words, places)
        for element in next(iter(studies.values())).system.elements()
        if element.kind in DEVICES
    ]
    return table(words("devices.caption"), [words(f"devices.{key}") for key in keys], rows)


def _device_row(
    studies: Studies,
    element: Element,
    verdicts: Mapping[str, str],
    words: Language,
    places: Places,
) -> Row:
    verdict = verdicts.get(element.name, "")
    part = clean(element.part.id) if element.part else ""
    said = words(f"verdict.{verdict}") if verdict else ""
    last = Cell(said, f"#{anchor(FINDING, element.name)}" if said else "", tone=verdict)
    kind = words.say(element.kind)
    cells = (
        _name(DEVICE, element.name),
        Cell(part, note=kind),
        Cell(clean(element.place.name)),
        *_device(studies, element, words),
        last,
    )
    return Row(cells, places.claim(anchor(FINDING, element.name)))


def _name(kind: str, name: str) -> Cell:
    return Cell(clean(name), f"#{anchor(kind, name)}")


def _point(studies: Studies, name: str, words: Language) -> Iterator[Cell]:
    yield worst(studies, lambda study: study.fault_max(name), max, words)
    yield worst(studies, lambda study: study.fault_min(name), _least, words)
    yield worst(studies, lambda study: study.voltage_max(name), max, words)
    fed = {each: study for each, study in studies.items() if _fed(study, name)}
    yield worst(fed, lambda study: study.time_constant(name), max, words)
    yield worst(studies, lambda study: study.load_voltage(name), min, words)


def _fed(study: Any, name: str) -> bool:
    """Whether a battery may feed a fault there: else there is no loop to have a time constant."""
    least = study.fault_min(name)
    return isinstance(least, Unknown) or least.value > 0


def _device(studies: Studies, element: Any, words: Language) -> Iterator[Cell]:
    yield worst(studies, lambda study: study.duty(element), max, words)
    yield worst(studies, lambda study: study.load(element), max, words)
    yield worst(studies, lambda study: study.fault_min_through(element), _least, words)


def _least(values: list[float]) -> float:
    """The least in which a battery feeds a fault; 0 where none ever does."""
    return min((value for value in values if value > 0), default=0.0)


def worst(
    studies: Studies,
    ask: Ask,
    pick: Callable[[list[float]], float],
    words: Language = ENGLISH,
) -> Cell:
    """The worst of all conditions with its name below; one that is not known comes before all."""
    values = {name: ask(study) for name, study in studies.items()}
    for name, value in values.items():
        if isinstance(value, Unknown):
            return Cell(words.say(UNKNOWN), note=_condition(name, len(values)))
    known = {name: value for name, value in values.items() if isinstance(value, Derived)}
    if not known:
        return Cell("")
    picked = pick([value.value for value in known.values()])
    name = next((name for name, value in known.items() if value.value == picked), next(iter(known)))
    alike = len({amount(value) for value in known.values()}) == 1
    note = "" if alike else _condition(name, len(values))
    return Cell(words.figure(amount(known[name])), note=note)


def _condition(name: str, several: int) -> str:
    return clean(name) if several > 1 else ""


def wanting(studies: Studies, words: Language) -> tuple[str, ...]:
    """What would have to be known for the numbers that are not, each once."""
    found: dict[str, None] = {}
    for study in studies.values():
        for value in _all(study):
            if isinstance(value, Unknown):
                found.update(dict.fromkeys(map(clean, value.missing)))
    return tuple(map(words.lack, found))


def _all(study: Any) -> Iterator[Value]:
    for name in study.network.points:
        yield from (study.fault_max(name), study.fault_min(name), study.voltage_max(name))
        yield study.load_voltage(name)
        if _fed(study, name):
            yield study.time_constant(name)
    for element in study.system.elements():
        if element.kind in DEVICES:
            yield from (study.duty(element), study.load(element))
            yield study.fault_min_through(element)
