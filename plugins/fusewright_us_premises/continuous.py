"""The quarter more that the code asks of what carries a load for three hours or longer."""

from __future__ import annotations

from typing import Any

from coordination.rules import Judgement, Source, Value, capped, compare, derive, given, unproven
from fusewright_us_premises.options import asked, stated

#: Loads of three hours and more count at this many times their current.
FACTOR = 1.25


def held_against(load: Value, rated: Value, study: Any, source: Source) -> Judgement:
    """125 % of the load against a rating [A]; 100 % where no load is stated to last three hours.

    Not stated: what bears 125 % passes either way, what does not bear 100 % fails either way.
    """
    whole, more = compare(load, at_most=rated), compare(_more(load, source), at_most=rated)
    lasting = stated(study, "continuous_loads")
    if lasting:
        return capped(more)
    if lasting is False or whole.verdict != "pass":
        return capped(whole)
    if more.verdict == "pass":
        return more
    return unproven(asked("continuous_loads"), reason="125 % of its load is too much")


def _more(load: Value, source: Source) -> Value:
    factor = given("factor for continuous load", "k_cont", FACTOR, "", source)
    symbol = getattr(load, "symbol", "I")
    quantity = "load with the quarter more for continuous load"
    return derive(lambda k, i: k * i, quantity, "I_cont", "A", f"k_cont × {symbol}", factor, load)
