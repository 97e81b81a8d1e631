"""What flows when a discharged input capacitance is connected: peak and heating energy.

A capacitor charged through a resistance takes V / R at first, and dissipates in that resistance as
much energy as it stores, whatever the resistance: R ∫ i² dt = C V² / 2.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from catalogue.frozen import dataclass
from coordination.model import Equipment
from coordination.network.stated import of_file
from coordination.physics.sources import OHM
from coordination.study.combine import NODAL, series
from coordination.study.deferred import renamed
from coordination.trace import COMMON_PRACTICE, Derived, Source, Unknown, Value, reckon

if TYPE_CHECKING:
    from coordination.study.study import Study

ENERGY = Source("definition", "charging through a resistance dissipates C V² / 2 in it")


@dataclass(frozen=True, slots=True)
class Inrush:
    """Connection of one input capacitance [F] to its source.

    peak       -- largest current [A], all inductance neglected
    energy     -- I²t [A²s] of the whole charging
    resistance -- of the loop [Ω]: source, conductors (max bound) and the capacitance's own
    """

    capacitance: Value
    resistance: Value
    peak: Value
    energy: Value


def inrush_of(study: Study, equipment: Equipment) -> Inrush | None:
    """The largest inrush of a piece of equipment; None where it states no capacitance."""
    if equipment.capacitance is None:
        return None
    name = equipment.name
    capacitance = of_file(
        equipment, "inrush.capacitance", equipment.capacitance, f"input capacitance of {name}",
        "C", "F",
    )  # fmt: skip
    voltage = study.voltage_max(name)
    voltage = renamed(voltage, "U") if isinstance(voltage, Derived) else voltage
    resistance = _resistance(study, equipment)
    peak = reckon(
        lambda volts, ohms: volts / ohms,
        f"peak inrush of {name}", "I_peak", "A", "U / R", voltage, resistance, source=OHM,
    )  # fmt: skip
    energy = reckon(
        lambda farads, volts, ohms: farads * volts**2 / (2 * ohms),
        f"I²t of the inrush of {name}", "J", "A²s", "C U² / (2 R)", capacitance, voltage,
        resistance, source=ENERGY,
    )  # fmt: skip
    return Inrush(capacitance, resistance, peak, energy)


def _resistance(study: Study, equipment: Equipment) -> Value:
    """Least resistance [Ω] of the loop that charges the capacitance."""
    quantity = f"resistance of the loop that charges {equipment.name}"
    at = study.network.index[equipment.name]
    conductance = study._figures.most.conductance[at]
    missing = study._doubts.fault_max(at)
    if missing or not conductance:
        return Unknown(quantity, missing or (f"{equipment.name}: a battery that feeds it",))
    terms = study._faults.most.at(at).terms
    outside = (
        renamed(series(terms), "R_loop", value=1.0 / conductance)
        if terms
        else Derived(quantity, "R_loop", 1.0 / conductance, "Ω", source=NODAL)
    )
    own = equipment.inrush_resistance
    inside = (
        Derived("resistance of the capacitance: not stated, neglected", "R_c", 0.0, "Ω",
                source=COMMON_PRACTICE)
        if own is None
        else of_file(equipment, "inrush.resistance", own, "its own resistance", "R_c", "Ω")
    )  # fmt: skip
    return reckon(
        lambda a, b: a + b, quantity, "R", "Ω", "R_loop + R_c", outside, inside, source=OHM
    )
