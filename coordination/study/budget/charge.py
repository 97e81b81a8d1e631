"""What flows into each battery while limited sources give all they can and nothing is drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.model import Source
from coordination.network import Feed
from coordination.study.budget.range import numbered, total
from coordination.study.budget.supply import is_on
from coordination.study.combine import KIRCHHOFF, NODAL
from coordination.study.figures import number
from coordination.trace import Derived, Unknown, Value, unknowns

if TYPE_CHECKING:
    from coordination.study.study import Study


def into(source: Source, study: Study) -> Value:
    """Charging current [A] of a battery, at most.

    One that is alone takes all of it; several share it as their resistances let them, the larger
    of both bounds, batteries of one part taken to be alike.
    """
    figures, network = study._figures, study.network
    words = f"charging current of {source.name}, at most"
    feed = next((each for each in network.feeds if each.source is source), None)
    if feed is None:
        return Derived(f"{words}: not in", "I", 0.0, "A", source=KIRCHHOFF)
    island = figures.shape.island
    beside = [each for each in network.feeds if island[each.point] == island[feed.point]]
    given = [
        i
        for i in network.injections
        if island[i.point] == island[feed.point] and is_on(i, study)
    ]
    if not given:
        return Derived(f"{words}: nothing charges it", "I", 0.0, "A", source=KIRCHHOFF)
    missing = unknowns([each.limit for each in given])
    if len(beside) > 1:
        missing += unknowns([v for f in beside for v in (f.resistance_low, f.resistance_high)])
        missing += unknowns([study.battery_current(each.source) for each in beside])
        missing += _unlike(beside)
    if missing:
        return Unknown(words, missing)
    if len(beside) == 1:
        return total(numbered([each.limit for each in given], "I"), words, "I", "A")
    fed = [(each.point, number(each.limit)) for each in given]
    most = 0.0
    for solved, high in ((figures.low, False), (figures.high, True)):
        voltages = solved.voltages(solved.gather(fed))
        ohms = number(feed.resistance_high if high else feed.resistance_low)
        most = max(most, voltages[feed.point] / ohms)
    return Derived(f"{words}, shared with its bank", "I", most, "A", source=NODAL)


def _unlike(feeds: list[Feed]) -> tuple[str, ...]:
    """Batteries of unequal open-circuit voltage drive currents through each other as well."""
    if len({(number(feed.emf_low), number(feed.emf_high)) for feed in feeds}) == 1:
        return ()
    names = " + ".join(feed.source.name for feed in feeds)
    return (f"{names}: how batteries of unequal open-circuit voltage share is not computed",)
