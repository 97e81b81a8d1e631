"""The accessors of a study about time: openings, pairs in series, faults along cables, inrush."""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from coordination.curves import Comparison, Opening
from coordination.model import Element, Equipment
from coordination.study import openings, pair_steps, pairs, withstand
from coordination.study.holding import Holding, holding
from coordination.study.inrush import Inrush, inrush_of
from coordination.study.keeping import Keeping
from coordination.study.openings import Clearing
from coordination.study.pairs import Compared, Pair
from coordination.study.upstream import Upstream
from coordination.study.withstand import FaultRange
from coordination.trace import Derived, Unknown, Value

if TYPE_CHECKING:
    from coordination.study.doubts import Doubts
    from coordination.study.reach import Reach


class TimeCurrent(Keeping):
    """What a study knows about time and current; `Study` is one."""

    if TYPE_CHECKING:
        _reach: Reach
        _doubts: Doubts

    def opening(self, element: Element) -> Opening | Unknown:
        """What a device in its place promises about opening: its band, its I²t figures."""
        study = self._study
        return self._once("opening", element.name, lambda: openings.opening_of(study, element))

    def clearing(
        self, element: Element, current: Value, time_constant: Value | None = None
    ) -> Clearing:
        """How long a current [A] through a device lasts at most, and the I²t it lets through.

        time_constant -- L/R [s] of the fault's loop; None: a current that is there at once
        """
        return openings.clearing(self._study, element, current, time_constant)

    def let_through(self, element: Element) -> Value:
        """I²t [A²s] that a device lets through at the largest fault current through it."""
        return self._once(
            "let-through", element.name, lambda: openings.let_through(self._study, element)
        )

    def holding(self, element: Element, current: Value) -> Holding:
        """How long a device is sure to stay closed at a current [A] that is no fault."""
        return holding(self._study, element, current)

    def arriving(self, element: Element, end: str) -> Value:
        """Largest current [A] into an element at its "start" or its "end", for a fault beyond."""
        return pairs.arriving(self._study, element, end == "start")

    def pairs(self) -> tuple[Pair, ...]:
        """Every two devices in series, with the currents at which they are to be compared."""
        return self._once("pairs", "", lambda: tuple(pairs.pairs_of(self._study)))

    def pairs_below(self, element: Element) -> tuple[Pair, ...]:
        """The pairs in which an element is the downstream device."""
        return self._pairs_by_down.get(element.name, ())

    def compared(self, pair: Pair) -> Compared:
        """Whether the downstream device of a pair always clears before the upstream one opens."""
        key = f"{pair.up.name} {pair.forward}"
        return self._once(
            "compared", pair.down.name, lambda: pairs.compared(self._study, pair), key
        )

    def latest(self, pair: Pair, at: Comparison) -> Derived | None:
        """Latest clearing [s] of a pair's downstream device at one current; None: not bounded."""
        return pair_steps.latest(self._study, pair, at)

    def earliest(self, pair: Pair, at: Comparison) -> Derived | None:
        """Earliest opening [s] of its upstream device then; None: not bounded, or never."""
        return pair_steps.earliest(self._study, pair, at)

    def lacking(self, pair: Pair, at: Comparison) -> tuple[str, ...]:
        """What a pair would need to be proven or broken at a current, a phrase each."""
        return pair_steps.lacking(self._study, pair, at)

    def fault_range(self, element: Element) -> tuple[FaultRange, ...]:
        """The fault currents along a cable, from each end that is fed."""
        return self._once(
            "range", element.name, lambda: withstand.fault_ranges(self._study, element)
        )

    def inrush(self, equipment: Equipment) -> Inrush | None:
        """Peak [A] and I²t [A²s] when its capacitance is connected; None where it states none."""
        return self._once("inrush", equipment.name, lambda: inrush_of(self._study, equipment))

    @cached_property
    def _upstream(self) -> Upstream:
        return Upstream(self._figures, self._reach, self._doubts)

    @cached_property
    def _pairs_by_down(self) -> dict[str, tuple[Pair, ...]]:
        found: dict[str, list[Pair]] = {}
        for pair in self.pairs():
            found.setdefault(pair.down.name, []).append(pair)
        return {name: tuple(several) for name, several in found.items()}
