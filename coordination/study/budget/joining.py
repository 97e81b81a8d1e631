"""What flows when a battery is joined to the others of its bank at another voltage.

Max bound: least resistances, nothing drawn, no charger. For who puts batteries side by side.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from coordination.model import Source
from coordination.network import Feed
from coordination.physics import charging, sources
from coordination.study.budget.bank import Bank
from coordination.study.budget.equalising import time_constant_of
from coordination.study.combine import NODAL
from coordination.study.deferred import renamed
from coordination.study.figures import number
from coordination.trace import COMMON_PRACTICE, Derived, Unknown, Value, reckon, unknowns

if TYPE_CHECKING:
    from coordination.study.study import Study

#: Difference of resting voltages [V] up to which batteries are joined, by custom.
APART = 0.1


class Joining(NamedTuple):
    """A battery joined to the others of its bank.

    full -- current [A] if it is full and they are at low charge; apart -- at 0.1 V of difference
    time_constant -- in which either falls to 37 % [s]; of a bank of two
    """

    source: Source
    full: Value
    apart: Value
    time_constant: Value


def joinings(bank: Bank, study: Study) -> tuple[Joining, ...]:
    """Each battery of a bank of several against the others, in the file's order."""
    feeds = [feed for feed in study.network.feeds if feed.source in bank.sources]
    return tuple(_joining(feed, feeds, study) for feed in feeds) if len(feeds) > 1 else ()


def _joining(own: Feed, feeds: list[Feed], study: Study) -> Joining:
    words = f"current of {own.source.name}, joined to the others"
    others = [feed for feed in feeds if feed is not own]
    missing = unknowns([own.emf_high, own.resistance_low])
    missing += unknowns([v for f in others for v in (f.emf_low, f.resistance_low)])
    if missing:
        unknown = Unknown(words, missing)
        return Joining(own.source, unknown, unknown, unknown)
    inputs = _inputs(own, others, study)
    full = reckon(
        charging.driven_current, f"{words} full while they are low", "I",
        "A", "(E_1 − E_2) / R", *inputs, source=sources.OHM,
    )  # fmt: skip
    step = Derived("difference of resting voltages", "dE", APART, "V", source=COMMON_PRACTICE)
    apart = reckon(
        lambda e, r: charging.driven_current(e, 0.0, r), f"{words} at {APART:g} V apart",
        "I", "A", "dE / R", step, inputs[2], source=sources.OHM,
    )  # fmt: skip
    return Joining(own.source, full, apart, time_constant_of([own], others, inputs[2]))


def _inputs(own: Feed, others: list[Feed], study: Study) -> tuple[Derived, Derived, Derived]:
    """Both voltages [V], and the resistance [Ω] of the battery, the others and the way."""
    solved, point = study._figures.low, own.point
    fed = [(f.point, number(f.emf_low) / number(f.resistance_low)) for f in others]
    ohms = number(own.resistance_low)
    empty = solved.voltages(solved.gather([*fed, (point, 0.0)]))[point]
    lifted = solved.voltages(solved.gather([(point, 1.0)]))[point]
    # Seen from its terminals: its own resistance beside that of all the rest.
    beyond = 1.0 / (1.0 / lifted - 1.0 / ohms)
    low = empty * (1.0 + beyond / ohms)
    assert isinstance(own.emf_high, Derived)
    names = " + ".join(feed.source.name for feed in others)
    return (
        renamed(own.emf_high, "E_1"),
        Derived(f"voltage of {names} at low charge", "E_2", low, "V", source=NODAL),
        Derived(f"least resistance of {own.source.name}, {names} and the way", "R", ohms + beyond,
                "Ω", source=NODAL),
    )  # fmt: skip
