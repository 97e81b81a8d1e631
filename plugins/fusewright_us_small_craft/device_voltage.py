"""Law: a device's voltage rating is at least the nominal voltage of its circuit."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, compare
from coordination.rules.kit.stated import rating
from fusewright_us_small_craft.scope import law, law_rule
from fusewright_us_small_craft.voltage import nominal

CARD = Card(
    name="device-voltage",
    title="Law: device rated for the nominal voltage",
    why="A device used above its voltage may not put its arc out. The clause asks for the nominal "
    "voltage only; the charging voltage, which is higher, is fundamentals' business.",
    wrong='A 48 V device on a bank of 51.2 V sold as "48 V".',
    right="A device of a higher voltage rating.",
    severity="fire",
    source=law("183.455(d)"),
    basis="law",
)


@law_rule(CARD, each="device")
def device_voltage(device: Any, study: Any) -> Judgement:
    """By the nominal voltage that the batteries of the circuit have themselves."""
    rated = rating(device.part, "rated_voltage", "rated voltage", "U_r", "V")
    return compare(nominal(device.start, study), at_most=rated)
