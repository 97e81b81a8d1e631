"""Which lithium banks ISO 23625 concerns, and how its documents are asked for.

The Technical Specification of 2021 begins above 600 Wh, the standard of 2025 above 500 Wh: the file
chooses with `iso_23625`, the newer one where it does not. Documents show in no drawing: the file
states them once, for every bank.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from coordination.rules import (
    ROUNDING,
    Derived,
    Judgement,
    Source,
    Unknown,
    Value,
    capped,
    derive,
    fail,
    given,
    passed,
    unproven,
)
from coordination.rules.kit.joined import nothing
from coordination.rules.kit.stated import rating
from coordination.rules.kit.zone import zone
from fusewright_iso_small_craft.options import asked, stated

LITHIUM = ("lfp", "nmc", "lto")
NEWEST = "2025"
#: Edition to the energy [J] above which it begins, and where it says so.
_BEGINS = {
    "2021": (600 * 3600.0, Source("ISO/TS 23625:2021", "clause 1", read=True)),
    "2025": (500 * 3600.0, Source("ISO 23625:2025", "clause 1", read=True)),
}
#: What only memory, or another code's citation, says of the Technical Specification.
UNREAD = "ISO/TS 23625:2021"


def edition(study: Any) -> str:
    """The edition of ISO 23625 that the file asks for."""
    return str(stated(study, "iso_23625") or NEWEST)


def begins(study: Any) -> Derived:
    """Energy of a bank [J] above which the edition begins."""
    joules, source = _BEGINS[edition(study)]
    words = f"{joules / 3600:g} Wh"
    return given("energy above which it begins", "W_min", joules, "J", source, words)


def energy(battery: Any, study: Any) -> Value | None:
    """Capacity times nominal voltage [J], summed over the lithium batteries joined to this one.

    Joined on the drawing, whatever is open or left out. None: this battery is not of lithium.
    """
    if battery.part.chemistry is not None and battery.part.chemistry not in LITHIUM:
        return None
    sources = study.system.sources
    joined = zone(battery.name, study, nothing, drawn=True).lengths
    bank = [s for name, s in sources.items() if name in joined and s.part is not None]
    unsaid = tuple(f"{b.part.id}: chemistry" for b in bank if b.part.chemistry is None)
    if unsaid:
        return Unknown("energy of the lithium bank", tuple(dict.fromkeys(unsaid)))
    return _sum([_one(b) for b in bank if b.part.chemistry in LITHIUM])


def _one(battery: Any) -> Value:
    part = battery.part
    charge = rating(part, "capacity", f"capacity of {battery.name}", "Q", "A·s")
    volts = rating(part, "nominal_voltage", f"nominal voltage of {battery.name}", "U_n", "V")
    what = f"energy of {battery.name}"
    return _in_wh(derive(lambda q, u: q * u, what, "W", "J", "Q × U_n", charge, volts))


def _sum(parts: list[Value]) -> Value:
    if len(parts) == 1:
        return parts[0]
    named = [
        part if isinstance(part, Unknown) else replace(part, symbol=f"W_{n}")
        for n, part in enumerate(parts, 1)
    ]
    formula = " + ".join(f"W_{n}" for n in range(1, len(parts) + 1))
    what = "energy of the lithium bank"
    return _in_wh(derive(lambda *each: sum(each), what, "W", "J", formula, *named))


def _in_wh(value: Value) -> Value:
    """Marked to be shown in watt-hours, as the standard says it."""
    if isinstance(value, Unknown):
        return value
    return replace(value, written=f"{value.value / 3600:.6g} Wh")


def concerned(battery: Any, study: Any) -> bool | Unknown:
    """Whether the edition asked for concerns the bank of this source."""
    if battery.part is None:
        return False
    found = energy(battery, study)
    if found is None:
        return False
    if isinstance(found, Unknown):
        return found
    return found.value > begins(study).value * (1 + ROUNDING)


def judge_stated(
    battery: Any, study: Any, option: str, question: str, source: Source
) -> Judgement | None:
    """By a yes/no option, for banks that the edition concerns; not stated is not proven."""
    applies = concerned(battery, study)
    if isinstance(applies, Unknown):
        return unproven(*applies.missing, reason="whether ISO 23625 concerns the bank")
    if not applies:
        return None
    answer = stated(study, option)
    if answer is None:
        return unproven(asked(option, question))
    if answer:
        return passed(f"stated: {question}", source=source)
    return capped(fail(f"stated not to hold: {question}"), source)
