"""What is written beside each symbol: names, ratings, sizes, and the currents of the study.

Gives lines of words, printable but not escaped; knows no place on the sheet.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, NamedTuple

from catalogue.parts import Cable, Disconnect
from coordination.model import Busbar, Converter, Element, Equipment, Return, Source
from coordination.report.wording import UNKNOWN, amount, clean, number
from coordination.trace import Derived

#: Kinds whose symbol shows whether they are open; another that is out is taken away.
CONTACTS = ("disconnect", "channel", "breaker")


class Line(NamedTuple):
    """A line of text, before it is broken to fit; weight: "name", "fact" or "current"."""

    text: str
    weight: str = "fact"


def link_lines(study: Any, link: Element | Converter) -> tuple[Line, ...]:
    """What is written beside an element or a converter."""
    if isinstance(link, Converter):
        return tuple(_converter(link))
    lines = [_name(link), *map(Line, _FACTS[link.kind](study, link))]
    if not study.closed(link):
        lines.append(Line("open" if link.kind in CONTACTS else "out"))
    return tuple(lines)


def _name(element: Element) -> Line:
    return Line(clean(element.name), "name")


def _overcurrent(study: Any, element: Element) -> Iterator[str]:
    part: Any = element.part
    words = [clean(part.family or "")] if element.kind != "channel" else ["electronic output"]
    words.append(_stated(part, "rated_current", "A"))
    yield " ".join(filter(None, words))
    yield _interrupt(study, element, part)


def _interrupt(study: Any, element: Element, part: Any) -> str:
    """The rating that counts here: of the lowest voltage listed that covers the highest one."""
    if not part.interrupt_ratings:
        return f"interrupt rating {UNKNOWN}"
    highest = study.voltage_max(element)
    if not isinstance(highest, Derived):
        return f"interrupt rating {UNKNOWN}"
    rows = [
        (row.voltage, place)
        for place, row in enumerate(part.interrupt_ratings)
        if row.voltage * (1 + 1e-9) >= highest.value
    ]
    if not rows:
        return f"no rating at {amount(highest)}"
    place = min(rows)[1]
    row, told = part.interrupt_ratings[place], part.written
    current = number(row.current, "A", told.get(f"interrupt_ratings.{place}.current", ""))
    volts = number(row.voltage, "V", told.get(f"interrupt_ratings.{place}.voltage", ""))
    return f"{current} at {volts}"


def _disconnect(_: Any, element: Element) -> Iterator[str]:
    part = element.part
    assert isinstance(part, Disconnect)
    kind = "remote switch" if part.remote else "switch"
    yield f"{kind} {_stated(part, 'rated_current', 'A')}"


def _cable(_: Any, element: Element) -> Iterator[str]:
    length = number(element.length or 0.0, "m", element.written.get("length", ""))
    yield f"{_size(element.part, element.runs)} · {length}"
    yield from _way_back(element.return_path)


def _way_back(back: Return) -> Iterator[str]:
    """The return, where it is not the same cable again."""
    if back.kind == "cable":
        words = f"return {_size(back.part, back.runs)}"
        if back.length is not None:
            words += f" · {number(back.length, 'm', back.written.get('length', ''))}"
        yield words
    elif back.kind == "path" and back.resistance is not None:
        yield f"return {number(back.resistance, 'Ω', back.written.get('resistance', ''))}"
    elif back.kind == "none":
        yield f"return {UNKNOWN}"


def _size(part: Any, runs: int) -> str:
    size = UNKNOWN
    if isinstance(part, Cable) and part.awg:
        size = f"{clean(part.awg)} AWG"
    elif isinstance(part, Cable) and part.area is not None:
        size = number(part.area, "m²", part.written.get("area", "") or "1 mm²")
    return f"{runs} × {size}" if runs > 1 else size


def _joint(_: Any, element: Element) -> Iterator[str]:
    low, high = element.resistance_min, element.resistance_max
    told = element.written
    shown = [
        number(value, "Ω", told.get(f"resistance.{side}", told.get("resistance", "")))
        for side, value in (("min", low), ("max", high))
        if value is not None
    ]
    yield f"joint {_span(shown[0], shown[-1], ' to ') if shown else UNKNOWN}"


_FACTS = {
    "fuse": _overcurrent,
    "breaker": _overcurrent,
    "channel": _overcurrent,
    "disconnect": _disconnect,
    "cable": _cable,
    "joint": _joint,
}


def _converter(converter: Converter) -> Iterator[Line]:
    yield Line(clean(converter.name), "name")
    told = converter.written
    out = [
        number(value, unit, told.get(field, ""))
        for field, value, unit in (
            ("output_voltage", converter.output_voltage, "V"),
            ("output_current", converter.output_current, "A"),
        )
        if value is not None
    ]
    yield Line(f"{', '.join(out) or UNKNOWN} out")
    if converter.isolated is not None:
        yield Line("isolated" if converter.isolated else "not isolated")


def thing_lines(study: Any, thing: Source | Busbar | Equipment) -> tuple[Line, ...]:
    """What is written at a source, a busbar or a piece of equipment."""
    lines = [Line(clean(thing.name), "name")]
    if isinstance(thing, Source):
        lines += map(Line, _source(thing))
        if thing.name in study.condition.without:
            lines.append(Line("out in this condition"))
    elif isinstance(thing, Busbar):
        lines.append(Line(f"busbar {_stated(thing.part, 'rated_current', 'A')}"))
    else:
        lines += map(Line, _equipment(thing))
    return tuple(lines)


def _source(source: Source) -> Iterator[str]:
    part = source.part
    if part is None:
        limit, volts = source.current_limited, source.voltage
        if limit is not None:
            yield f"at most {number(limit, 'A', source.written.get('current_limited', ''))}"
        if volts is not None:
            yield number(volts, "V", source.written.get("voltage", ""))
        return
    yield f"{_stated(part, 'nominal_voltage', 'V')}, {_stated(part, 'capacity', 'A·s')}"
    if part.resistance is None:
        yield f"resistance {UNKNOWN}"
        return
    ends = [
        number(value, "Ω", part.written.get(f"resistance.{side}", "1 mΩ"))
        for side, value in (("min", part.resistance.min), ("max", part.resistance.max))
        if value is not None
    ]
    yield _span(ends[0], ends[-1], " to ")


def _equipment(equipment: Equipment) -> Iterator[str]:
    told = equipment.written
    if equipment.power is not None:
        yield number(equipment.power, "W", told.get("power", ""))
    if equipment.current is not None and not equipment.cranking:
        yield number(equipment.current, "A", told.get("current", ""))
    if equipment.cranking:
        yield "engine starter"
    if equipment.critical:
        yield "critical"


def current_line(study: Any, point: str) -> Line:
    """The largest and the least prospective fault current at a point."""
    most, least = amount(study.fault_max(point)), amount(study.fault_min(point))
    return Line(_span(most or UNKNOWN, least or UNKNOWN, " / "), "current")


def _span(first: str, second: str, between: str) -> str:
    """Two amounts with one unit where they share it."""
    if first == second and between == " to ":
        return first
    number_, _, unit = first.rpartition(" ")
    same = unit == second.rpartition(" ")[2] and bool(number_)
    return f"{number_}{between}{second}" if same else f"{first}{between}{second}"


def _stated(part: Any, field: str, unit: str) -> str:
    value = getattr(part, field, None)
    if value is None:
        return f"{_SILENT.get(field, field)} {UNKNOWN}"
    return number(value, unit, part.written.get(field, ""))


_SILENT = {
    "rated_current": "rating",
    "nominal_voltage": "voltage",
    "capacity": "capacity",
}
