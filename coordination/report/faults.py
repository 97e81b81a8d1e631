"""The table of prospective currents and voltages, per condition, at every point and device."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from coordination.report.colour import Paint, plain
from coordination.report.lines import NARROWEST, wrapped
from coordination.report.tables import columns
from coordination.report.wording import UNKNOWN, amount, clean
from coordination.trace import Unknown

if TYPE_CHECKING:
    from coordination.trace import Value

_DEVICES = ("fuse", "breaker", "channel", "disconnect")


def faults_report(studies: Mapping[str, Any], width: int, paint: Paint = plain) -> str:
    """Two tables a condition, then what would have to be known for the unknown numbers."""
    width = max(width, NARROWEST)
    lines: list[str] = []
    for name, study in studies.items():
        lines += ["", paint("heading", f"Condition {clean(name)}"), *_condition(study, width)]
    return "\n".join(lines[1:]) + "\n"


def _condition(study: Any, width: int) -> Iterator[str]:
    missing: dict[str, None] = {}
    points = [(name, *_words(_point(study, name), missing)) for name in study.network.points]
    headers = ("point", "fault max", "fault min", "voltage max", "time const", "load voltage")
    yield from ("", *columns(points, headers, "lrrrrr", width))
    devices = [
        (clean(one.name), _part(one), *_words(_device(study, one), missing))
        for one in study.subjects("element")
        if one.kind in _DEVICES
    ]
    titles = ("device", "part", "duty", "load", "min through")
    yield from ("", *(columns(devices, titles, "llrrr", width) if devices else ["No device."]))
    if missing:
        yield from ("", "Unknown for want of:")
        yield from (
            line for what in missing for line in wrapped(clean(what), width, "  - ", "    ")
        )


def _point(study: Any, name: str) -> tuple[Value, ...]:
    ask = (
        study.fault_max,
        study.fault_min,
        study.voltage_max,
        study.time_constant,
        study.load_voltage,
    )
    return tuple(each(name) for each in ask)


def _device(study: Any, element: Any) -> tuple[Value, ...]:
    return study.duty(element), study.load(element), study.fault_min_through(element)


def _part(element: Any) -> str:
    part = element.part.id if element.part else ""
    return clean(f"{element.kind} {part}".rstrip())


def _words(values: tuple[Value, ...], missing: dict[str, None]) -> Iterator[str]:
    for value in values:
        if isinstance(value, Unknown):
            missing.update(dict.fromkeys(value.missing))
        yield amount(value) or UNKNOWN
