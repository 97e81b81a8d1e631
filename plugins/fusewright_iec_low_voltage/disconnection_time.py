"""Whether a fault must be disconnected against electric shock, and whether this is shown."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Card, Judgement, capped, compare, given, passed, rule, unproven
from fusewright_iec_low_voltage.options import asked, stated
from fusewright_iec_low_voltage.parts_of_standard import shock

#: Up to this voltage [V], ripple-free DC, live parts need no cover in the dry; up to the higher one
#: it is extra-low voltage all the same.
UNCOVERED, HIGHEST = 60.0, 120.0
CARD = Card(
    name="disconnection-time",
    title="Extra-low voltage needs no disconnection time",
    why="Part 4-41: where SELV or PELV protects from electric shock (414), no disconnection time "
    "is asked for; that ends at 120 V DC ripple-free, and above 60 V live parts are covered. Above "
    "120 V the times of Table 41.1 apply, which this rule does not work out.",
    wrong="A bank of 17 cells charged to 62 V with open terminals; a charger without separation.",
    right="SELV or PELV from safely separating sources; covered live parts above 60 V.",
    severity="paperwork",
    basis="standard",
    source=shock("414, 411.3.2"),
)


@rule(CARD, each="source")
def disconnection_time(source: Any, study: Any) -> Iterator[Judgement]:
    """Highest voltage against the two limits; how it is kept apart from mains is asked for."""
    if source.name in study.condition.without:
        return
    highest = study.voltage_max(source.name)
    elv = given("limit of extra-low voltage", "U_elv", HIGHEST, "V", shock("414.1.1"), "120 V")
    beyond = compare(highest, at_most=elv)
    if beyond.verdict != "pass":
        yield capped(beyond)
        return
    yield _system(study)
    yield _covered(highest, study)


def _system(study: Any) -> Judgement:
    kind = stated(study, "extra_low_voltage")
    if kind in ("selv", "pelv"):
        return passed(f"{kind.upper()}: no disconnection time is asked for", source=shock("414"))
    if kind == "felv":
        return unproven("disconnection of the primary circuit of the FELV source (411.7)")
    return unproven(asked("extra_low_voltage"))


def _covered(highest: Any, study: Any) -> Judgement:
    limit = given("limit for open live parts", "U_max", UNCOVERED, "V", shock("414.4.5"), "60 V")
    low = compare(highest, at_most=limit, reason="no disconnection time is asked for")
    covered = stated(study, "basic_protection")
    if low.verdict == "pass":
        return low
    if covered:
        return passed("live parts covered: no disconnection time is asked for")
    if covered is None:
        return unproven(asked("basic_protection"))
    return capped(low)
