"""What an inlet may carry for hours, what is drawn from it, and what is left for charging.

Currents are added as numbers, whatever their power factors: the sum is an upper bound.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coordination.mains import AcLoad, Inlet
from coordination.model import Source
from coordination.network.stated import of_file
from coordination.physics import shore, sources
from coordination.study.budget.load import average
from coordination.study.budget.range import numbered, total
from coordination.study.budget.supply import into_bank, time_to_full
from coordination.study.deferred import renamed
from coordination.trace import DEFINITION, Derived, Unknown, Value, derive, reckon
from coordination.trace import Source as Origin

if TYPE_CHECKING:
    from coordination.study.study import Study

#: Share of a breaker's rating that is drawn for hours, by the strictest usual rule.
STRICT = 0.8
STRICT_SOURCE = Origin(
    "NFPA 70:2023", "210.20(A): 125 % of the continuous load", read=False
)  # fmt: skip


class ShoreBudget(NamedTuple):
    """One inlet in one condition; currents [A].

    may    -- for hours: where the file does not tell by which share, by 80 %; `at_most` by 100 %
    passed -- loads straight through; chargers -- each at its own limit; whole -- all together
    drawn  -- as the stated settings let it come about
    left   -- for charging, with the input limit set to `may`; gives -- by the charger then, DC
    into   -- the bank [A], DC; time -- until it is full, at least [s]
    """

    inlet: Inlet
    may: Value
    at_most: Value
    loads: tuple[tuple[AcLoad, Value], ...]
    chargers: tuple[tuple[Source, Value], ...]
    passed: Value
    whole: Value
    drawn: Value
    left: Value
    gives: Value
    into: Value
    time: Value


def budget(inlet: Inlet, study: Study) -> ShoreBudget | None:
    """The budget of an inlet; None where it is not in, in this condition."""
    if inlet.name in study.condition.without:
        return None
    loads = tuple(
        (load, _load_current(load, inlet, study))
        for load in study.system.ac_loads.values()
        if load.inlet == inlet.name and load.name not in study.condition.without
    )
    chargers = tuple(
        (source, _charger_current(source, inlet))
        for source in study.system.sources.values()
        if source.mains is not None
        and source.mains.inlet == inlet.name
        and source.name not in study.condition.without
    )
    may, at_most = (_limit(inlet, share) for share in (STRICT, 1.0))
    passed = total(
        numbered([current for _, current in loads], "I"), f"loads of {inlet.name}", "I_l", "A"
    )
    charging = total(
        numbered([current for _, current in chargers], "I"), f"chargers of {inlet.name}", "I_c", "A"
    )
    whole = _sum(f"drawn from {inlet.name}, everything at its own limit", passed, charging)
    left = derive(
        lambda may, passed: max(may - passed, 0.0), f"left for charging by {inlet.name}", "I_r",
        "A", "max(I_may − I_l, 0)", _as(may, "I_may"), passed, source=sources.KIRCHHOFF,
    )  # fmt: skip
    gives = _gives(inlet, chargers, left)
    into, time = _filling(inlet, chargers, gives, study)
    drawn = _drawn(inlet, passed, charging, whole)
    return ShoreBudget(
        inlet, may, at_most, loads, chargers, passed, whole, drawn, left, gives, into, time
    )


def _as(value: Value, symbol: str) -> Value:
    return value if isinstance(value, Unknown) else renamed(value, symbol)


def _sum(words: str, passed: Value, charging: Value) -> Value:
    return derive(
        lambda loads, chargers: loads + chargers, words, "I", "A", "I_l + I_c",
        _as(passed, "I_l"), _as(charging, "I_c"), source=sources.KIRCHHOFF,
    )  # fmt: skip


def _limit(inlet: Inlet, otherwise: float) -> Value:
    """Least of what breaker, generator, inlet and cord carry for hours [A].

    otherwise -- share of the breaker's rating where the file does not state one
    """
    words = f"what {inlet.name} may carry for hours"
    if inlet.breaker is None and inlet.power is None:
        return Unknown(words, (f"{inlet.name}: breaker",))
    bounds: list[Value] = []
    if inlet.breaker is not None:
        bounds.append(_of_breaker(inlet, otherwise))
    if inlet.power is not None:
        bounds.append(reckon(
            lambda p, u: shore.ac_current(p, u, 1.0), f"{words}, by its generator", "I", "A",
            "P / U_ac",
            of_file(inlet, "power", inlet.power, f"power of {inlet.name}", "P", "W"),
            _voltage(inlet), source=sources.CONSERVATION,
        ))  # fmt: skip
    bounds += [
        of_file(inlet, field, getattr(inlet, field), f"rating of the {words_of}", "I", "A")
        for field, words_of in (("inlet", "inlet"), ("cord", "cord"))
        if getattr(inlet, field) is not None
    ]
    named = numbered(bounds, "I")
    if len(named) == 1:
        return _as(named[0], "I")
    formula = f"min({', '.join(v.symbol for v in named if isinstance(v, Derived))})"
    return derive(lambda *each: min(each), words, "I", "A", formula, *named, source=DEFINITION)


def _of_breaker(inlet: Inlet, otherwise: float) -> Value:
    share: Value
    if inlet.continuous is not None:
        share = of_file(inlet, "continuous", inlet.continuous, "share for hours", "k", "")
    elif otherwise == 1.0:
        share = Derived("share for hours, at most", "k", 1.0, "", source=DEFINITION)
    else:
        share = Derived("share for hours, not stated", "k", otherwise, "", source=STRICT_SOURCE)
    return reckon(
        shore.continuous_limit, f"breaker of {inlet.name}, for hours", "I", "A", "I_n × k",
        of_file(inlet, "breaker", inlet.breaker, f"breaker of {inlet.name}", "I_n", "A"), share,
        source=DEFINITION,
    )  # fmt: skip


def _voltage(inlet: Inlet) -> Value:
    return of_file(inlet, "voltage", inlet.voltage, f"voltage of {inlet.name}", "U_ac", "V")


def _load_current(load: AcLoad, inlet: Inlet, study: Study) -> Value:
    """Current [A] of an AC load in this condition."""
    words = f"current of {load.name}"
    if load.current is not None or load.power is None:
        full = of_file(load, "current", load.current, words, "I", "A")
    else:
        full = reckon(
            shore.ac_current, words, "I", "A", "P / (U_ac × pf)",
            of_file(load, "power", load.power, f"power of {load.name}", "P", "W"),
            _voltage(inlet),
            of_file(load, "power_factor", load.power_factor, "power factor", "pf", ""),
            source=sources.CONSERVATION,
        )  # fmt: skip
    share = study.condition.draw.get(load.name)
    if share is None or share == 1.0:
        return full
    if share == 0.0:
        return Derived(f"{words}: it is off", "I", 0.0, "A", source=DEFINITION)
    stated = of_file(study.condition, f"draw.{load.name}", share, "share it draws", "s", "")
    return derive(lambda i, s: i * s, words, "I", "A", "I_f × s", _as(full, "I_f"), stated,
                  source=DEFINITION)  # fmt: skip


def _charger_current(source: Source, inlet: Inlet) -> Value:
    """Mains current [A] of a charger that gives its limit."""
    mains = source.mains
    assert mains is not None
    return reckon(
        shore.charger_input_current, f"mains current of {source.name}", "I", "A",
        "U × I_dc / (η × U_ac × pf)",
        of_file(source, "voltage", source.voltage, f"voltage of {source.name}", "U", "V"),
        of_file(source, "current_limited", source.current_limited, f"limit of {source.name}",
                "I_dc", "A"),
        of_file(mains, "efficiency", mains.efficiency, "efficiency", "η", ""),
        _voltage(inlet),
        of_file(mains, "power_factor", mains.power_factor, "power factor", "pf", ""),
        source=sources.CONSERVATION,
    )  # fmt: skip


def _drawn(inlet: Inlet, passed: Value, charging: Value, whole: Value) -> Value:
    """What is drawn [A] with the stated input limit: it can throttle charging, not the loads."""
    if inlet.input_limit is None:
        return whole
    words = f"drawn from {inlet.name}, as its input limit is set"
    limit = of_file(inlet, "input_limit", inlet.input_limit, "input limit", "I_set", "A")
    if inlet.limits is None:
        # Whatever it counts, what fits without it fits.
        missing = whole.missing if isinstance(whole, Unknown) else ()
        known = () if isinstance(whole, Unknown) else (whole,)
        return Unknown(words, (f"{inlet.name}: limits", *missing), known)
    passed, charging = _as(passed, "I_l"), _as(charging, "I_c")
    if inlet.limits == "inlet" and isinstance(charging, Unknown):
        # Whatever the charger would take, it is held to what the limit leaves it.
        return derive(
            lambda loads, most: max(loads, most), f"{words}, at most", "I", "A", "max(I_l, I_set)",
            passed, limit, source=sources.KIRCHHOFF,
        )  # fmt: skip
    if inlet.limits == "charger":
        return derive(
            lambda loads, chargers, most: loads + min(chargers, most), words, "I", "A",
            "I_l + min(I_c, I_set)", passed, charging, limit, source=sources.KIRCHHOFF,
        )  # fmt: skip
    return derive(
        lambda loads, chargers, most: max(loads, min(loads + chargers, most)), words, "I", "A",
        "max(I_l, min(I_l + I_c, I_set))", passed, charging, limit, source=sources.KIRCHHOFF,
    )  # fmt: skip


def _gives(inlet: Inlet, chargers: tuple[tuple[Source, Value], ...], left: Value) -> Value:
    """What the charger gives [A, DC] from what is left, at most its limit."""
    words = f"charging current from what {inlet.name} leaves"
    if not chargers:
        return Unknown(words, (f"{inlet.name}: no charger is fed by it in this condition",))
    if len(chargers) > 1:
        return Unknown(words, (f"{inlet.name}: how several chargers share is not computed",))
    source = chargers[0][0]
    mains = source.mains
    assert mains is not None
    return reckon(
        lambda i, u, pf, eta, dc, most: min(
            shore.charger_output_current(i, u, pf, eta, dc), most
        ),
        words, "I_c", "A", "min(I_r × U_ac × pf × η / U, I_dc)",
        left, _voltage(inlet),
        of_file(mains, "power_factor", mains.power_factor, "power factor", "pf", ""),
        of_file(mains, "efficiency", mains.efficiency, "efficiency", "η", ""),
        of_file(source, "voltage", source.voltage, f"voltage of {source.name}", "U", "V"),
        of_file(source, "current_limited", source.current_limited, f"limit of {source.name}",
                "I_dc", "A"),
        source=sources.CONSERVATION,
    )  # fmt: skip


def _filling(
    inlet: Inlet, chargers: tuple[tuple[Source, Value], ...], gives: Value, study: Study
) -> tuple[Value, Value]:
    """Charging current of the bank [A, DC], and the least time [s] to fill it."""
    words = f"time to full from {inlet.name}"
    if isinstance(gives, Unknown):
        return gives, Unknown(words, gives.missing)
    bank = study.bank_of(chargers[0][0].name)
    if bank is None:
        missing = Unknown(words, (f"{chargers[0][0].name}: no battery on its side",))
        return missing, missing
    into = into_bank(bank, gives, average(study.loads_of(bank), bank).nominal)
    return into, time_to_full(bank, into)
