"""A commissioning record to fill in, with what the study expects beside every empty place."""

from __future__ import annotations

import json
from collections.abc import Iterator
from datetime import date
from typing import TYPE_CHECKING, Any

from coordination.measured.prediction import allowed_drop, design_load
from coordination.network.supply import equipment_current
from coordination.report.wording import amount, clean, number
from coordination.trace import Derived

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

#: Column at which the remarks stand.
_REMARK = 32


def blank_record(findings: Findings, made: date) -> str:
    """The record as YAML; `made` is the day of the calculation."""
    return "\n".join(_lines(findings, made)) + "\n"


def _lines(findings: Findings, made: date) -> Iterator[str]:
    name = findings.system.name
    yield f"# Commissioning record of {clean(name)}, to be filled in; every amount with its unit."
    yield "# What stays empty counts as not measured. Expected values are those of the study of"
    yield f"# {made.isoformat()}. Compare with: fusewright measured FILE RECORD.yaml"
    yield ""
    yield f"system: {_quoted(name)}"
    yield _empty("date", "YYYY-MM-DD")
    yield _empty("by", "who measured")
    yield _empty("condition", "of the system at the measurements (else: normal)")
    yield from ("", "meters:")
    for which, usual in (("voltage", "0.5 %"), ("current", "2 %"), ("temperature", "2 °C")):
        yield f"  {which}:"
        yield _empty("    accuracy", f"by its sheet (else: {usual}, common practice)")
        yield _empty("    instrument", "what it is, and its serial number")
    yield from ("", "batteries:", *_batteries(findings))
    yield from ("", "drops:", *_drops(findings))
    yield from ("", "terminals:", *_terminals(findings))
    yield from ("", "shore:")
    yield _empty("  current", "AC, with everything on")
    yield _empty("  limit", "of the inlet, or as set")
    yield _empty("  voltage", "AC, then")
    yield _empty("  loads", "nameplates of what drew AC then, added up; 0 A if nothing")
    yield "  charging:"
    yield _empty("    current", "DC, out of the charger then; 0 A if none")
    yield _empty("    voltage", "DC, at the charger")
    yield _empty("    efficiency", "of the charger, by its sheet")
    yield _empty("    power_factor", "of its input, by its sheet")


def _batteries(findings: Findings) -> Iterator[str]:
    for source in findings.system.sources.values():
        part: Any = source.part
        if part is None:
            continue
        yield f"  {_quoted(source.name)}:"
        yield _empty("    open_circuit", f"at rest{_band(part, 'emf', 'V')}")
        yield _empty("    light", f"resistance{_band(part, 'resistance', 'Ω')}")
        yield from (_empty("      current", "small and steady"), _empty("      voltage", ""))
        yield "    heavy:"
        yield from (_empty("      current", "large and steady"), _empty("      voltage", ""))
        yield _empty("    temperature", "of the battery then")
        yield _empty("    state_of_charge", "then, in %")
        yield _empty("    spread", "at other temperatures, charges, ages")
        yield _empty("      under", "how far it may lie under (else: 15 %)")
        yield _empty("      over", "how far over (else: 60 %)")


def _band(part: Any, field: str, unit: str) -> str:
    band = getattr(part, field)
    if band is None:
        return ""
    ends = (number(band.min, unit, part.written.get(f"{field}.min", "")),
            number(band.max, unit, part.written.get(f"{field}.max", "")))  # fmt: skip
    return f", expected {ends[0]} to {ends[1]}"


def _drops(findings: Findings) -> Iterator[str]:
    for equipment in findings.system.equipment.values():
        drawn = equipment_current(equipment)
        if isinstance(drawn, Derived) and drawn.value == 0.0:
            continue
        allowed = allowed_drop(findings, equipment)
        told = "" if allowed is None else f", at most {amount(allowed)} allowed"
        yield f"  {_quoted(equipment.name)}:"
        yield _empty("    current", f"drawn then; design {amount(drawn)}")
        yield _empty("    drop", f"battery's terminals to its own{told}")
        yield _empty("    drawing", "alone (else), or all")


def _terminals(findings: Findings) -> Iterator[str]:
    for element in findings.system.elements():
        if element.kind not in ("fuse", "breaker", "disconnect"):
            continue
        load = design_load(findings, element)
        told = "" if load is None else f"; design {number(load, 'A')}"
        part: Any = element.part
        limit = getattr(part, "terminal_limit", None)
        bound = "" if limit is None else f"; limit {number(limit, '°C')}"
        yield f"  {_quoted(element.name)}:"
        yield _empty("    current", f"after 20 to 30 min{told}")
        yield _empty("    temperature", f"of the warmer terminal{bound}")
        yield _empty("    ambient", "air around it")


def _empty(key: str, remark: str) -> str:
    line = f"{key}:"
    return f"{line:<{_REMARK}}# {remark}" if remark else line


def _quoted(name: str) -> str:
    """A name as a YAML text, whatever it holds."""
    return json.dumps(name, ensure_ascii=False)
