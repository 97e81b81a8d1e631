"""What was measured beside what the study predicts and what must not be passed."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Literal, NamedTuple

from coordination.measured.prediction import (
    allowed_drop,
    design_load,
    predicted_drop,
    predicted_temperature,
)
from coordination.measured.shore import drawn_by_file, error_of, predicted_shore
from coordination.physics.measuring import scaled_rise

if TYPE_CHECKING:
    from catalogue.records import Band
    from coordination.measured.record import (
        BatteryRecord,
        DropRecord,
        Meter,
        Record,
        ShoreRecord,
        TerminalRecord,
    )
    from coordination.measured.resistance import Resistance
    from coordination.model import System
    from coordination.rules.finding import Findings

#: within: as predicted, the meter's error allowed; outside: against the prediction; over the limit:
#: whatever the meter's error; cannot tell: the limit lies within it; within the limit: nobody
#: predicted it; judged anew: a resistance that took the place of the file's; no prediction: and no
#: limit either.
Verdict = Literal[
    "within",
    "outside",
    "over the limit",
    "cannot tell",
    "within the limit",
    "judged anew",
    "no prediction",
]


class Comparison(NamedTuple):
    """One measured value.

    value, error -- as read, and what the meter leaves open [unit]
    low, high    -- of the prediction; None: there is none
    limit        -- what it must not pass; None: nothing says
    """

    what: str
    subject: str
    line: int
    unit: str
    value: float
    error: float
    verdict: Verdict
    low: float | None = None
    high: float | None = None
    limit: float | None = None
    written: str = ""


def verdict_of(
    value: float, error: float, low: float | None, high: float | None, limit: float | None
) -> Verdict:
    """Where a reading lies; a limit goes before a prediction."""
    if limit is not None and value + error > limit:
        return "over the limit" if value - error > limit else "cannot tell"
    if low is None and high is None:
        return "no prediction" if limit is None else "within the limit"
    above = high is not None and value - error > high
    below = low is not None and value + error < low
    return "outside" if above or below else "within"


def comparisons(
    record: Record, resistances: Mapping[str, Resistance], system: System, findings: Findings
) -> Iterator[Comparison]:
    """Every measured value, in the order of the record's sections.

    system   -- as its file has it
    findings -- by the measured resistances
    """
    for battery in record.batteries:
        yield from _of_battery(battery, record.voltage, resistances.get(battery.name), system)
    for drop in record.drops:
        yield _of_drop(drop, record, findings)
    for terminal in record.terminals:
        yield from _of_terminal(terminal, record, findings)
    if record.shore is not None:
        yield _of_shore(record.shore, record, findings)


def _of_battery(
    battery: BatteryRecord, meter: Meter, found: Resistance | None, system: System
) -> Iterator[Comparison]:
    part = system.sources[battery.name].part
    if battery.open_circuit is not None:
        emf = None if part is None else part.emf
        written = battery.written["open_circuit"]
        error = error_of(battery.open_circuit, meter, written, "voltage")
        low, high = (None, None) if emf is None else (emf.min, emf.max)
        verdict = verdict_of(battery.open_circuit, error, low, high, None)
        yield Comparison("open-circuit voltage", battery.name, battery.line, "V",
                         battery.open_circuit, error, verdict, low, high, None,
                         written)  # fmt: skip
    if found is not None:
        yield _of_resistance(battery, found, None if part is None else part.resistance)


def _of_resistance(battery: BatteryRecord, found: Resistance, band: Band | None) -> Comparison:
    value = found.value.value
    error = max(found.meters.max - value, value - found.meters.min)
    inside = band is not None and band.min <= found.meters.min and found.meters.max <= band.max
    low, high = (None, None) if band is None else (band.min, band.max)
    verdict: Verdict = "within" if inside else "judged anew"
    return Comparison("resistance", battery.name, battery.line, "Ω", value, error, verdict,
                      low, high, None, "1 mΩ")  # fmt: skip


def _of_drop(drop: DropRecord, record: Record, findings: Findings) -> Comparison:
    equipment = findings.system.equipment[drop.name]
    band = predicted_drop(findings, record.condition, drop)
    low, high = (None, None) if band is None else (band.min, band.max)
    allowed = allowed_drop(findings, equipment)
    written = drop.written["drop"]
    error = error_of(drop.drop, record.voltage, written, "voltage")
    limit = None if allowed is None else allowed.value
    return Comparison("voltage drop", drop.name, drop.line, "V", drop.drop, error,
                      verdict_of(drop.drop, error, low, high, limit), low, high, limit,
                      written)  # fmt: skip


def _of_terminal(
    terminal: TerminalRecord, record: Record, findings: Findings
) -> Iterator[Comparison]:
    """As it was, and as it would be at the design current in the air that is designed for."""
    element = next(e for e in findings.system.elements() if e.name == terminal.name)
    limit = getattr(element.part, "terminal_limit", None)
    error, warm = record.temperature.accuracy, terminal.temperature
    high = predicted_temperature(findings, record.condition, element, terminal)
    low = None if high is None else terminal.ambient
    yield Comparison("terminal temperature", terminal.name, terminal.line, "°C", warm, error,
                     verdict_of(warm, error, low, high, limit), low, high, limit,
                     terminal.written["temperature"])  # fmt: skip
    load = design_load(findings, element)
    if load is None or limit is None:
        return
    there = scaled_rise(warm, terminal.ambient, terminal.current, load, element.place.ambient)
    error *= 1.0 + (load / terminal.current) ** 2
    verdict = verdict_of(there, error, None, None, limit)
    yield Comparison("the same at its design current", terminal.name, terminal.line, "°C", there,
                     error, verdict, None, None, limit)  # fmt: skip


def _of_shore(shore: ShoreRecord, record: Record, findings: Findings) -> Comparison:
    """By what the record tells; what it does not, by the file."""
    written = shore.written["current"]
    error = error_of(shore.current, record.current, written, "current")
    drawn, most = drawn_by_file(findings, record.condition)
    band = predicted_shore(shore, record) or drawn
    limit = most if shore.limit is None else shore.limit
    low, high = (None, None) if band is None else (band.min, band.max)
    verdict = verdict_of(shore.current, error, low, high, limit)
    return Comparison("shore current", "shore", shore.line, "A", shore.current, error, verdict,
                      low, high, limit, written)  # fmt: skip
