"""What a commissioning record says, in text: bands, comparisons, changed verdicts, the edit."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coordination.measured.edit import edit_lines
from coordination.report.colour import Paint, plain
from coordination.report.limits import cautions
from coordination.report.lines import NARROWEST, labelled, wrapped
from coordination.report.sentence import because
from coordination.report.substitution import working
from coordination.report.summary import conclusion, headline
from coordination.report.tables import columns
from coordination.report.wording import clean, number, place

if TYPE_CHECKING:
    from coordination.comparison.pairing import Change
    from coordination.measured.compare import Comparison
    from coordination.measured.record import BatteryRecord, Meter, Record
    from coordination.measured.rejudge import Outcome
    from coordination.measured.resistance import Resistance
    from coordination.rules.finding import Finding

#: What a reader must know of any measured resistance.
_OF_RESISTANCE = (
    "A resistance holds for the temperature, charge and age at which it was measured, and is "
    "larger after seconds of load than in the first moment of a fault: the spread stands for that.",
)


def measured_report(outcome: Outcome, width: int, paint: Paint = plain) -> str:
    """The whole report, ending in a newline."""
    return "\n".join(_lines(outcome, max(width, NARROWEST), paint)) + "\n"


def _lines(outcome: Outcome, width: int, paint: Paint) -> Iterator[str]:
    after = outcome.after
    yield from (paint(after.verdict, line) for line in wrapped(headline(after), width, "", "  "))
    yield f"  {conclusion(after)}, with the measured values"
    yield from labelled(_head(outcome.record, after.system.name, after.file), width, "  ")
    batteries = {battery.name: battery for battery in outcome.record.batteries}
    for name, found in outcome.resistances.items():
        yield from ("", paint("heading", f"Resistance of {clean(name)}"))
        yield from labelled(_resistance(batteries[name], found), width, "  ")
    yield from ("", paint("heading", "Measured against predicted"), "")
    yield from _table(outcome, width)
    yield from _changes(outcome, width, paint)
    edits = edit_lines(outcome)
    if edits:
        yield from ("", paint("heading", "To make it permanent (nothing was written)"), *edits)
    yield from ("", paint("heading", "Cautions"))
    told = (*(_OF_RESISTANCE if outcome.resistances else ()), *cautions(after))
    yield from (line for each in told for line in wrapped(each, width, "  - ", "    "))


def _head(record: Record, system: str, file: str) -> list[tuple[str, str]]:
    by = f", {clean(record.by)}" if record.by else ""
    return [
        ("system", clean(system)),
        ("file", clean(file)),
        ("record", clean(f"{record.file}, {record.date}{by}")),
        ("condition", clean(record.condition)),
        ("voltage", _meter(record.voltage, f"{record.voltage.accuracy * 100:.3g} %", "V")),
        ("current", _meter(record.current, f"{record.current.accuracy * 100:.3g} %", "A")),
        ("temperature", _meter(record.temperature, f"{record.temperature.accuracy:.3g} °C", "")),
    ]


def _meter(meter: Meter, accuracy: str, unit: str) -> str:
    words = f"± {accuracy}" + ("" if meter.stated else " (common practice, not stated)")
    if unit:
        digit = "of each reading" if meter.resolution is None else number(meter.resolution, unit)
        words += f" and the last digit ({digit})"
    return words + (f", {clean(meter.serial)}" if meter.serial else "")


def _resistance(battery: BatteryRecord, found: Resistance) -> Iterator[tuple[str, str]]:
    at = [battery.written.get(name, "") for name in ("temperature", "state_of_charge")]
    told = ", ".join(map(clean, filter(None, at)))
    value = number(found.value.value, "Ω", "1 mΩ")
    yield "measured", f"R = {working(found.value)} = {value}" + (f", at {told}" if told else "")
    yield "by the meters", _span(found.meters.min, found.meters.max)
    under, over = (f"{share * 100:.3g} %" for share in found.spread)
    assumed = " (assumed, common practice: the record states none)" if found.assumed else ""
    yield "spread", f"−{under} / +{over}{assumed}"
    yield "judged by", f"{found.texts[0]} to {found.texts[1]}"


def _span(low: float, high: float) -> str:
    return f"{number(low, 'Ω', '1 mΩ')} to {number(high, 'Ω', '1 mΩ')}"


def _table(outcome: Outcome, width: int) -> Iterator[str]:
    rows = [_row(each) for each in outcome.compared]
    headers = ("what", "of", "measured", "predicted", "limit", "verdict")
    yield from columns(rows, headers, "llrrrl", width)


def _row(each: Comparison) -> tuple[str, ...]:
    # Degrees have no prefixes that a bound should share with its reading.
    written = "" if each.unit == "°C" else each.written
    return (
        each.what,
        clean(each.subject),
        number(each.value, each.unit, each.written),
        _predicted(each, written),
        "" if each.limit is None else number(each.limit, each.unit, written),
        each.verdict,
    )


def _predicted(each: Comparison, written: str) -> str:
    ends = [
        "" if end is None else number(end, each.unit, written) for end in (each.low, each.high)
    ]
    return " to ".join(filter(None, ends))


def _changes(outcome: Outcome, width: int, paint: Paint) -> Iterator[str]:
    yield from ("", paint("heading", f"Verdicts that changed ({len(outcome.changes)})"))
    if not outcome.changes:
        told = "None." if outcome.resistances else "None: no resistance was measured."
        yield f"  {told}"
    for change in outcome.changes:
        yield from _change(change, outcome.after.file, width, paint)


def _change(change: Change[Finding], file: str, width: int, paint: Paint) -> Iterator[str]:
    one: Finding | None = change.after or change.before
    assert one is not None
    old, new = (_word(change.before), _word(change.after))
    where = f"{clean(one.rule)}  {place(file, one.line)}  {clean(one.subject)}"
    for line in wrapped(f"{old} -> {new}  {where}", width, "  ", "    "):
        yield paint(one.verdict, line)
    yield from wrapped(because(one), width, "    ")


def _word(finding: Finding | None) -> str:
    return "no finding" if finding is None else finding.verdict
