"""The figures to mark at each battery's disconnect, for the end of the report."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Derived, Section, Unknown
from fusewright_us_premises.battery_label import available
from fusewright_us_premises.disconnecting import above
from fusewright_us_premises.editions import Edition


def sections(findings: Any, edition: Edition) -> tuple[Section, ...]:
    """One table of all batteries, or nothing where there is none."""
    rows = tuple(_rows(findings, edition))
    if not rows:
        return ()
    text = (
        f"NFPA 70:{edition.year}, {edition.battery_marking}: the disconnect of a stationary "
        f"battery above {edition.battery_volts:g} V is marked with these and the date."
    )
    return (
        Section(
            title="To mark at the battery's disconnect",
            paragraphs=(text,),
            headings=("battery", "nominal voltage", "largest short-circuit current", "required"),
            rows=rows,
        ),
    )


def _rows(findings: Any, edition: Edition) -> Iterator[tuple[str, ...]]:
    for battery in findings.system.sources.values():
        if battery.part is None:
            continue
        studies = [
            study
            for study in findings.studies.values()
            if battery.name not in study.condition.without
        ]
        nominal = getattr(battery.part, "nominal_voltage", None)
        required = "not known"
        if nominal is not None:
            required = "yes" if above(nominal, edition.battery_volts) else "no"
        volts = "not known" if nominal is None else f"{nominal:g} V"
        yield battery.name, volts, _largest(battery, studies), required


def _largest(battery: Any, studies: list[Any]) -> str:
    """Over all conditions the battery is in."""
    found = [available(battery, study) for study in studies]
    if not found or any(isinstance(each, Unknown) for each in found):
        return "not known"
    largest = max(each.value for each in found if isinstance(each, Derived))
    return f"{largest:.0f} A"
