"""How long a bank lasts at a current: by its charge, or for lead-acid by Peukert's law."""

from __future__ import annotations

from coordination.network.stated import of_part
from coordination.physics import energy, peukert, sources
from coordination.study.budget.bank import Bank, depth_of, usable
from coordination.study.budget.range import Range
from coordination.study.deferred import renamed
from coordination.trace import DEFINITION, Derived, Unknown, Value, reckon

LEAD_ACID = "lead-acid"


def run_time(bank: Bank, current: Range) -> Range:
    """How long [s] a bank lasts: rated charge at the nominal current, and the two bounds.

    current -- the least, nominal and largest current [A] drawn from it
    The least time is of the least charge at the largest current. A lead-acid battery gives less at
    high currents; where it does not state by how much, only the most is known.
    """
    charge = usable(bank)
    words = f"run time of {bank.name}"
    ends = (
        (f"{words}, at least", charge.least, current.most),
        (words, charge.nominal, current.nominal),
        (f"{words}, at most", charge.most, current.least),
    )
    least, nominal, most = (
        _time(bank, quantity, held, drawn, bound == 2)
        for bound, (quantity, held, drawn) in enumerate(ends)
    )
    if doubt := _cut_short(bank, current.most):
        least = Unknown(f"{words}, at least", (doubt,))
    return Range(least, nominal, most)


def _time(bank: Bank, quantity: str, charge: Value, current: Value, upper: bool) -> Value:
    if isinstance(current, Derived) and current.value == 0.0:
        return Unknown(quantity, (f"{bank.name}: nothing is drawn",))
    kinds = {part.chemistry for part in bank.parts}
    if None in kinds:
        asked = "chemistry (lead-acid gives less at high currents)"
        return Unknown(quantity, tuple(f"{p.id}: {asked}" for p in bank.parts if not p.chemistry))
    by_charge = reckon(
        energy.run_time, quantity, "t", "s", "Q / I",
        charge if isinstance(charge, Unknown) else renamed(charge, "Q"),
        current if isinstance(current, Unknown) else renamed(current, "I"), source=DEFINITION,
    )  # fmt: skip
    if upper or isinstance(by_charge, Unknown) or not _lead_acid(bank):
        return by_charge
    return _of_lead_acid(bank, quantity, charge, current, by_charge)


def _lead_acid(bank: Bank) -> bool:
    return any((part.chemistry or "").startswith(LEAD_ACID) for part in bank.parts)


def _of_lead_acid(
    bank: Bank, quantity: str, charge: Value, current: Value, by_charge: Derived
) -> Value:
    """By charge up to the current at which the capacity is rated; by Peukert's law above it."""
    part = bank.parts[0]
    depths = {source.usable_depth for source in bank.sources}
    if any(other != part for other in bank.parts) or len(depths) > 1:
        missing = f"{bank.name}: how lead-acid batteries that differ share is not computed"
        return Unknown(quantity, (missing,), (by_charge,))
    hours = of_part(part, "rated_time", part.rated_time, "time of the rated discharge", "H", "s")
    depth = depth_of(bank.sources[0])
    if isinstance(hours, Unknown):
        return Unknown(quantity, hours.missing, (by_charge,))
    if isinstance(charge, Unknown) or isinstance(current, Unknown) or isinstance(depth, Unknown):
        return by_charge
    if current.value * hours.value * depth.value <= charge.value:
        return by_charge
    exponent = of_part(
        part, "peukert_exponent", part.peukert_exponent, "Peukert exponent", "k", ""
    )
    return reckon(
        _shortened, quantity, "t", "s", "d × H × (Q / (d × I × H))^k",
        depth, hours, renamed(charge, "Q"), renamed(current, "I"), exponent,
        source=sources.PEUKERT,
    )  # fmt: skip


def _shortened(
    depth: float, hours: float, charge: float, current: float, exponent: float
) -> float:
    """The share d of the time until empty; C = Q / d is the whole capacity."""
    return depth * peukert.peukert_time(charge / depth, hours, current, exponent)


def _cut_short(bank: Bank, current: Value) -> str:
    """Why the discharge ends before the charge is used; empty if nothing says so.

    Of batteries of one part: what is left of the open-circuit voltage at low charge.
    """
    part = bank.parts[0]
    stops, emf, resistance = part.low_cutoff, part.emf, part.resistance
    if all(p.low_cutoff is None for p in bank.parts) or isinstance(current, Unknown):
        return ""
    if stops is None or any(p != part for p in bank.parts):
        return f"{bank.name}: when unlike batteries meet low_cutoff is not computed"
    if emf is None or resistance is None:
        return f"{part.id}: emf and resistance, to tell when low_cutoff is met"
    left = emf.min - current.value * resistance.max / len(bank.sources)
    if left >= stops:
        return ""
    return (
        f"{bank.name}: at low charge {current.value:.3g} A leave {left:.4g} V, below low_cutoff "
        f"({stops:.4g} V): it ends before the charge is used"
    )

