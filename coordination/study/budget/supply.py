"""What charges a bank: what each source may give for hours, what is asked of it, how long it takes.

Leaves the taper out: every time to full is a lower bound.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coordination.model import Converter, Source
from coordination.network import Injection
from coordination.network.stated import of_file, of_part
from coordination.physics import charging, sources
from coordination.study.budget.bank import Bank, usable
from coordination.study.budget.load import Load, average
from coordination.study.budget.range import numbered, total
from coordination.study.deferred import renamed
from coordination.study.subjects import ambient
from coordination.trace import DEFINITION, Derived, Unknown, Value, derive, reckon

if TYPE_CHECKING:
    from coordination.study.study import Study


class Recharge(NamedTuple):
    """Filling a bank from one source, or from all together.

    gives   -- what the source may give for hours [A]; into -- what of it reaches the bank [A]
    time    -- at least this long until full [s]: bulk only, no taper
    """

    names: tuple[str, ...]
    gives: Value
    into: Value
    time: Value


def continuous(source: Source | Converter) -> Value:
    """What a limited source may give for hours [A] at the temperature of its place."""
    if isinstance(source, Converter):
        words = f"limit of {source.name}"
        return of_file(source, "output_current", source.output_current, words, "I", "A")
    stated = "continuous" if source.continuous is not None else "current_limited"
    words = f"what {source.name} may give for hours"
    rated = of_file(source, stated, getattr(source, stated), words, "I", "A")
    if not source.derating:
        return rated
    at = ambient(source)
    row = next((r for r in enumerate(source.derating) if r[1][0] >= at.value), None)
    if row is None:
        return Unknown(words, (f"{source.name}: derating at {at.value:g} °C or above",))
    field = f"derating.{row[0]}.factor"
    factor = of_file(source, field, row[1][1], f"share at {row[1][0]:g} °C", "k", "")
    return derive(
        lambda current, k: current * k, f"{words} at {at.value:g} °C", "I", "A", "I_n × k",
        rated if isinstance(rated, Unknown) else renamed(rated, "I_n"), factor, source=DEFINITION,
    )  # fmt: skip


def chargers(bank: Bank, study: Study) -> tuple[Injection, ...]:
    """Limited sources that feed a bank's piece of the network, and are on in this condition."""
    island = study._figures.shape.island
    return tuple(
        each
        for each in study.network.injections
        if island[each.point] == bank.island and is_on(each, study)
    )


def is_on(injection: Injection, study: Study) -> bool:
    """Whether a source gives anything: a converter that draws 0 % in this condition does not."""
    return study.condition.draw.get(injection.source.name) != 0.0


def recharges(bank: Bank, loads: tuple[Load, ...], study: Study) -> tuple[Recharge, ...]:
    """From each source alone, then from all together, with the loads of the condition on."""
    found = chargers(bank, study)
    alone = [_recharge(bank, (each.source,), loads) for each in found]
    together = tuple(each.source for each in found)
    return (*alone, *([_recharge(bank, together, loads)] if len(found) > 1 else []))


def _recharge(
    bank: Bank, sources_: tuple[Source | Converter, ...], loads: tuple[Load, ...]
) -> Recharge:
    names = tuple(source.name for source in sources_)
    gives = total(
        numbered([continuous(source) for source in sources_], "I"),
        f"current of {' + '.join(names)}", "I_c", "A",
    )  # fmt: skip
    into = into_bank(bank, gives, average(loads, bank).nominal)
    return Recharge(names, gives, into, time_to_full(bank, into))


def into_bank(bank: Bank, gives: Value, drawn: Value) -> Value:
    """What of a charging current [A] reaches a bank: less the loads, at most what it may take."""
    words = f"charging current of {bank.name}"
    left = derive(
        lambda c, drawn: c - drawn, f"{words}, less the loads", "I_b", "A", "I_c − I_l",
        gives if isinstance(gives, Unknown) else renamed(gives, "I_c"),
        drawn if isinstance(drawn, Unknown) else renamed(drawn, "I_l"), source=sources.KIRCHHOFF,
    )  # fmt: skip
    if isinstance(left, Derived) and left.value <= 0.0:
        return Unknown(words, (f"{bank.name}: its loads take all of it",), (left,))
    takes = [charge_limit(source) for source in bank.sources]
    known = [value for value in takes if isinstance(value, Derived)]
    if isinstance(left, Unknown) or not known or len(known) < len(takes):
        return left
    most = total(numbered(known, "I"), f"charging current that {bank.name} may take", "I_m", "A")
    assert isinstance(most, Derived)
    if most.value >= left.value:
        return left
    return Derived(
        words, "I_b", most.value, "A", "min(I_left, I_m)", (renamed(left, "I_left"), most),
        DEFINITION,
    )  # fmt: skip


def charge_limit(source: Source) -> Value:
    """Largest continuous current [A] that a battery may be charged with."""
    words = f"charging current that {source.name} may take"
    if source.part is None:
        return Unknown(words, (f"{source.name}: no battery",))
    return of_part(source.part, "charge_current", source.part.charge_current, words, "I_m", "A")


def time_to_full(bank: Bank, into: Value) -> Value:
    """Least time [s] to put the usable charge back: all of it at the full current.

    A charge efficiency that is not stated counts 100 %: the time stays a lower bound.
    """
    words = f"time to full of {bank.name}, bulk only, at least"
    charge = usable(bank).nominal
    part = bank.parts[0]
    same = all(other.charge_efficiency == part.charge_efficiency for other in bank.parts)
    if part.charge_efficiency is None or not same:
        efficiency: Value = Derived(
            "charge given back, at most", "η", 1.0, "", source=sources.CONSERVATION
        )
    else:
        efficiency = of_part(
            part, "charge_efficiency", part.charge_efficiency, "charge given back", "η", ""
        )
    return reckon(
        charging.bulk_time, words, "t", "s", "Q / (η × I_b)",
        charge if isinstance(charge, Unknown) else renamed(charge, "Q"),
        into if isinstance(into, Unknown) else renamed(into, "I_b"), efficiency,
        source=DEFINITION,
    )  # fmt: skip


def asked_of(source: Source, study: Study) -> Value:
    """The most [A] that a limited source is asked for for hours: by its bank's charge and loads.

    A bank takes no more than its voltage difference drives through least resistances, and than
    its maker allows; the source gives no more than its limit.
    """
    words = f"current that {source.name} is asked for, at most"
    island = study._figures.shape.island
    point = study.network.index[source.name]
    limit = of_file(
        source, "current_limited", source.current_limited, f"limit of {source.name}", "I_max", "A"
    )
    drawn = total(
        numbered([d.current for d in study.network.draws if island[d.point] == island[point]
                  and not getattr(d.subject, "cranking", False)], "I"),
        "current of the loads beside it", "I_l", "A",
    )  # fmt: skip
    taken = _taken(source, study)
    if isinstance(taken, Unknown) or isinstance(drawn, Unknown):
        # More than its limit it never gives.
        return limit if isinstance(limit, Unknown) else renamed(limit, "I")
    return derive(
        lambda most, b, drawn: min(most, b + drawn), words, "I", "A", "min(I_max, I_b + I_l)",
        limit, renamed(taken, "I_b"), drawn, source=sources.KIRCHHOFF,
    )  # fmt: skip


def _taken(source: Source, study: Study) -> Value:
    """The most [A] that the batteries of its piece take: by voltage, and by their makers."""
    words = f"charging current that {source.name} drives, at most"
    island = study._figures.shape.island
    piece = island[study.network.index[source.name]]
    feeds = [feed for feed in study.network.feeds if island[feed.point] == piece]
    if not feeds:
        return Derived(f"{words}: no battery", "I_b", 0.0, "A", source=sources.KIRCHHOFF)
    held = of_file(source, "voltage", source.voltage, f"voltage of {source.name}", "U", "V")
    driven: list[Value] = [
        reckon(
            charging.driven_current, f"what it drives into {feed.source.name}", "I_d", "A",
            "(U − E) / R", held,
            feed.emf_low if isinstance(feed.emf_low, Unknown) else renamed(feed.emf_low, "E"),
            feed.resistance_low, source=sources.OHM,
        )
        for feed in feeds
    ]  # fmt: skip
    bounded = [_smaller(one, charge_limit(f.source)) for one, f in zip(driven, feeds, strict=True)]
    return total(numbered(bounded, "I"), words, "I_b", "A")


def _smaller(one: Value, other: Value) -> Value:
    known = [value for value in (one, other) if isinstance(value, Derived)]
    return min(known, key=lambda value: value.value) if known else one


class Balance(NamedTuple):
    """What is drawn [A] on a converter's input side for hours, and what sources there give.

    unstated -- sources that do not state what they give for hours: their largest current counts
    """

    drawn: Value
    given: Value
    unstated: tuple[str, ...]


def start_balance(converter: Converter, study: Study) -> Balance | None:
    """The balance on a converter's input side.

    None where nothing is drawn at its input in this condition, or no battery stands there.
    """
    island = study._figures.shape.island
    if converter.name in study.condition.without:
        return None
    piece = island[study.network.index[f"{converter.name}.input"]]
    own = next(d for d in study.network.draws if d.subject is converter)
    if isinstance(own.current, Derived) and own.current.value == 0.0:
        return None
    if not any(island[feed.point] == piece for feed in study.network.feeds):
        return None
    draws = [d.current for d in study.network.draws if island[d.point] == piece
             and not getattr(d.subject, "cranking", False)]  # fmt: skip
    others = [i for i in study.network.injections if island[i.point] == piece and is_on(i, study)]
    givers = [i.source for i in others if i.source is not converter]
    gives = [continuous(source) for source in givers]
    side = f"on the input side of {converter.name}"
    return Balance(
        total(numbered(draws, "I"), f"current drawn {side}", "I", "A"),
        total(numbered(gives, "I"), f"current that sources give for hours {side}", "I", "A"),
        tuple(s.name for s in givers if isinstance(s, Source) and s.continuous is None),
    )
