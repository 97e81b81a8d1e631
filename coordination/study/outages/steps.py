"""The sums behind a supply by limited sources alone, as steps that can be checked by hand."""

from __future__ import annotations

from collections.abc import Iterable

from coordination.network import Network
from coordination.study.combine import KIRCHHOFF, summed
from coordination.study.outages.after import Supplied
from coordination.study.outages.supply import limit_of
from coordination.trace import Derived, Unknown, Value, unknowns


def limit(network: Network, supplied: Supplied) -> Value:
    """The most [A] that the sources which count can give together."""
    names = set(supplied.sources)
    values = [limit_of(each, network) for each in network.injections if each.source.name in names]
    return _sum(values, "limit of the limited sources that are left", "I_limit", supplied)


def demand(network: Network, supplied: Supplied) -> Value:
    """What is drawn [A] in the piece they feed."""
    names = set(supplied.drawn)
    values = [each.current for each in network.draws if each.subject.name in names]
    return _sum(values, "current drawn from the limited sources that are left", "I_drawn", supplied)


def _sum(values: Iterable[Value], quantity: str, symbol: str, supplied: Supplied) -> Value:
    values = list(values)
    missing = tuple(dict.fromkeys((*unknowns(values), *supplied.missing)))
    if missing:
        return Unknown(quantity, missing)
    known = [value for value in values if isinstance(value, Derived) and value.value]
    if not known:
        return Derived(f"{quantity}: none", symbol, 0.0, "A", source=KIRCHHOFF)
    total = summed(known, quantity, symbol, "A")
    return Derived(
        quantity, symbol, total.value, "A", total.formula, total.inputs, KIRCHHOFF, total.written
    )
