"""How the batteries of a bank share its full load, with the least and with the largest resistances.

Batteries of one part are taken to be alike: all of them lie at the same end of their band. At low
charge, everything drawing, no charger helping.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coordination.model import Source
from coordination.network import Feed
from coordination.study.budget.bank import Bank
from coordination.study.combine import NODAL, OHM
from coordination.study.deferred import renamed
from coordination.study.figures import number
from coordination.trace import DEFINITION, Derived, Unknown, Value, unknowns

if TYPE_CHECKING:
    from coordination.study.study import Study


class Share(NamedTuple):
    """One battery's part of the bank's full load.

    current -- [A], the larger of both bounds; ratio -- of it to the average of the bank [1]
    """

    source: Source
    current: Value
    ratio: Value


def shares(bank: Bank, study: Study) -> tuple[Share, ...]:
    """The share of each battery of a bank, in the file's order."""
    feeds = {feed.source.name: feed for feed in study.network.feeds}
    missing = unknowns([study.battery_current(source) for source in bank.sources])
    missing += unknowns([v for s in bank.sources for v in _figures_of(feeds[s.name])])
    if missing:
        return tuple(
            Share(s, Unknown(f"share of {s.name}", missing), Unknown(f"ratio of {s.name}", missing))
            for s in bank.sources
        )
    ends = (("largest", study._loads.cases[0].voltages), ("least", _stiff(study)))
    found = {
        word: [_given(feeds[s.name], voltages[feeds[s.name].point], word)
               for s in bank.sources]
        for word, voltages in ends
    }  # fmt: skip
    return tuple(_share(source, at, found) for at, source in enumerate(bank.sources))


def _figures_of(feed: Feed) -> tuple[Value, ...]:
    return feed.emf_low, feed.resistance_low, feed.resistance_high


def _stiff(study: Study) -> list[float]:
    """Voltage [V] of every point while everything draws, with the least resistances."""
    solved = study._figures.low
    fed = [(f.point, number(f.emf_low) / number(f.resistance_low)) for f in study.network.feeds
           if not unknowns(_figures_of(f))]  # fmt: skip
    fed += [(draw.point, -number(draw.current)) for draw in study.network.draws]
    return solved.voltages(solved.gather(fed))


def _given(feed: Feed, voltage: float, word: str) -> Derived:
    """(E − U) / R of one battery, with the voltage that the network leaves at its terminals."""
    resistance = feed.resistance_high if word == "largest" else feed.resistance_low
    assert isinstance(feed.emf_low, Derived)
    assert isinstance(resistance, Derived)
    at = Derived(f"voltage at {feed.source.name}", "U", voltage, "V", source=NODAL)
    return Derived(
        f"current of {feed.source.name} with {word} resistances, everything drawing", "I",
        (feed.emf_low.value - voltage) / resistance.value, "A", "(E − U) / R",
        (renamed(feed.emf_low, "E"), at, renamed(resistance, "R")), OHM,
    )  # fmt: skip


def _share(source: Source, at: int, found: dict[str, list[Derived]]) -> Share:
    own = [each[at] for each in found.values()]
    best = max(own, key=lambda value: value.value)
    named = tuple(renamed(value, f"I_{n}") for n, value in enumerate(own, 1))
    current = Derived(
        f"share of {source.name}", "I", best.value, "A", "max(I_1, I_2)", named, DEFINITION
    )
    ratios = [_ratio(source, each[at], each, word) for word, each in found.items()]
    known = [value for value in ratios if isinstance(value, Derived)]
    ratio: Value = max(known, key=lambda value: value.value) if known else ratios[0]
    return Share(source, current, ratio)


def _ratio(source: Source, own: Derived, each: list[Derived], word: str) -> Value:
    words = f"share of {source.name} over the average, with {word} resistances"
    mean = sum(value.value for value in each) / len(each)
    if any(value.value < 0.0 for value in each):
        what = f"{source.name}: a battery of its bank is charged by the others"
        return Unknown(words, (what,))
    if mean <= 0.0:
        return Unknown(words, (f"{source.name}: nothing is drawn from its bank",))
    inputs = tuple(renamed(value, f"I_{n}") for n, value in enumerate(each, 1))
    place = each.index(own) + 1
    formula = f"I_{place} × {len(each)} / ({' + '.join(value.symbol for value in inputs)})"
    return Derived(words, "r", own.value / mean, "", formula, inputs, DEFINITION)
