"""Practice: a device breaks what its bank can deliver: by table for flooded banks, else by sum."""

from __future__ import annotations

from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    Source,
    Unknown,
    Value,
    capped,
    compare,
    given,
    rule,
    unproven,
)
from coordination.rules.kit.zone import zone
from fusewright_us_small_craft import tables
from fusewright_us_small_craft.options import asked, of_part, stated
from fusewright_us_small_craft.scope import E11, practice
from fusewright_us_small_craft.voltage import nominal
from fusewright_us_small_craft.walk import spread

CARD = Card(
    name="interrupting-capacity",
    title="Practice: interrupting capacity",
    why="The standard's table goes by the cold-cranking amps of flooded lead-acid batteries. It "
    "says nothing of lithium, whose banks deliver more: there the prospective current decides.",
    wrong="A 5 kA fuse passed by the table on a lithium bank; a bank above 2200 CCA or 500 Ah.",
    right="A device whose rating at this voltage is at least the table's, or the bank's current.",
    severity="fire",
    source=practice(E11, "E-11.10.1, Table V-A"),
    basis="practice",
)
FLOODED = "lead-acid flooded"
#: Up to here the table holds: cold-cranking amps [A] and capacity [A·s].
LARGEST_CRANKING, LARGEST_CAPACITY = 2200.0, 500.0 * 3600


@rule(CARD, each="device")
def interrupting_capacity(device: Any, study: Any) -> Judgement | None:
    """Nothing is asked of a device that no battery reaches."""
    batteries = spread([device.start, device.end], study).batteries(study)
    if not batteries:
        return None
    rating = _rating(device.part, study.voltage_max(device))
    if any(battery.part.chemistry != FLOODED for battery in batteries):
        reason = "not a flooded bank: its prospective current decides"
        return compare(study.duty(device), at_most=rating, reason=reason)
    cranking = _cranking(batteries, study)
    if cranking is None:
        return unproven(asked("cold_cranking_amps"))
    return _flooded(device, batteries, cranking, rating, study)


def _cranking(batteries: tuple[Any, ...], study: Any) -> float | None:
    """Cold-cranking amps [A] connected: what the parts state together, or the file in total.

    Where both are stated the larger counts.
    """
    each = [of_part(battery.part, "cold_cranking_amps") for battery in batteries]
    total = stated(study, "cold_cranking_amps")
    known = [] if total is None else [float(total)]
    if None not in each:
        known.append(float(sum(each)))
    return max(known, default=None)


def _flooded(
    device: Any, batteries: tuple[Any, ...], cranking: float, rating: Value, study: Any
) -> Judgement:
    capacity = [battery.part.capacity for battery in batteries]
    silent = tuple(f"{b.part.id}: capacity" for b in batteries if b.part.capacity is None)
    if silent and cranking <= LARGEST_CRANKING:
        return unproven(*silent, reason="the table holds up to 500 Ah")
    if cranking > LARGEST_CRANKING or sum(capacity) > LARGEST_CAPACITY:
        reason = "above 2200 CCA or 500 Ah: the bank's prospective current decides"
        return compare(study.duty(device), at_most=rating, reason=reason)
    volts = nominal(device.start, study)
    if isinstance(volts, Unknown):
        return unproven(*volts.missing)
    return _by_table(device, volts.value, cranking, rating, study)


def _by_table(device: Any, volts: float, cranking: float, rating: Value, study: Any) -> Judgement:
    # The rows' cranking amps are whole numbers: 650.5 A belongs to the row that begins at 651.
    rows = [
        row for row in tables.interrupting()
        if row.volts[0] <= volts <= row.volts[1] and cranking <= row.cranking[1]
    ]  # fmt: skip
    if not rows:
        return unproven(f"Table V-A at {volts:g} V: it lists 12 V to 24 V and 32 V")
    main = any(zone(end, study).batteries(study) for end in (device.start, device.end))
    row, place = rows[0], "main" if main else "branch"
    source = practice(E11, "E-11.10.1, Table V-A", read=row.read)
    least = row.main if main else row.branch
    limit = given(f"{place} device at {cranking:g} CCA", "I_min", least, "A", source)
    judgement = compare(rating, at_least=limit, reason=f"{place} device, {cranking:g} CCA")
    return judgement if row.read else capped(judgement)


def _rating(part: Any, voltage: Value) -> Value:
    """Interrupt rating [A] at the lowest listed voltage that covers the system's."""
    if isinstance(voltage, Unknown):
        return Unknown("interrupt rating", voltage.missing)
    rows = [row for row in part.interrupt_ratings if voltage.value <= row.voltage * (1 + 1e-9)]
    if not rows:
        missing = f"{part.id}: interrupt_ratings at >= {voltage.value:g} V"
        return Unknown("interrupt rating", (missing,))
    row = min(rows, key=lambda each: (each.voltage, each.current))
    return _listed(part, row, voltage)


def _listed(part: Any, row: Any, voltage: Derived) -> Derived:
    quantity = f"interrupt rating at {row.voltage:g} V, for {voltage.value:g} V"
    source = Source("part data", f"{part.id}: interrupt_ratings")
    return given(quantity, "I_r", row.current, "A", source)
