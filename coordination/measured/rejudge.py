"""Rules judged anew with measured resistances, and which verdicts that changed."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from coordination.comparison.pairing import Change, other_verdicts
from coordination.measured.compare import Comparison, comparisons
from coordination.measured.resistance import Resistance, resistance_of

if TYPE_CHECKING:
    from coordination.measured.record import Record
    from coordination.model import Source, System
    from coordination.rules.finding import Finding, Findings


class Outcome(NamedTuple):
    """What a record says of a system."""

    record: Record
    resistances: Mapping[str, Resistance]
    compared: tuple[Comparison, ...]
    before: Findings
    after: Findings
    changes: tuple[Change[Finding], ...]

    @property
    def exit_status(self) -> int:
        """As `check`, with what was measured: past a limit 1, against a prediction at best 3."""
        verdicts = {each.verdict for each in self.compared}
        if self.after.exit_status == 1 or "over the limit" in verdicts:
            return 1
        contradicted = not verdicts.isdisjoint({"outside", "cannot tell"})
        return 3 if contradicted else self.after.exit_status


def with_measured(
    system: System, record: Record, judged: Callable[[System], Findings]
) -> Outcome:
    """Judge a system as its file has it and as it was measured; compare what was predicted.

    judged -- the findings of a system
    Raises OutOfRange where a measurement cannot be used; `read_measured` lets none through.
    """
    found = {battery.name: resistance_of(battery, record) for battery in record.batteries}
    resistances = {name: each for name, each in found.items() if each is not None}
    before = judged(system)
    after = judged(measured_system(system, resistances, record)) if resistances else before
    changes = other_verdicts(before.findings, after.findings)
    compared = tuple(comparisons(record, resistances, system, after))
    return Outcome(record, resistances, compared, before, after, changes)


def measured_system(
    system: System, resistances: Mapping[str, Resistance], record: Record
) -> System:
    """The system with batteries of the measured resistances; nothing else is another."""
    sources = {
        name: _measured(source, resistances[name], record) if name in resistances else source
        for name, source in system.sources.items()
    }
    return replace(system, sources=sources)


def _measured(source: Source, found: Resistance, record: Record) -> Source:
    part = source.part
    assert part is not None
    gone = ("resistance", "resistance.assumed")
    written = {key: text for key, text in part.written.items() if key not in gone}
    written |= {"resistance.min": found.texts[0], "resistance.max": found.texts[1]}
    # The new id shows in every derivation that the figure is no longer the part's own.
    name = f"{part.id} as measured {record.date}"
    changed = replace(part, id=name, resistance=found.band, written=written)
    return replace(source, part=changed)
