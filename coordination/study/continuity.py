"""The accessors of a study about single events: who goes dark, and what is left without a battery.

What they rest on is imported when the first is asked: most checks ask none.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

from coordination.model import Converter, Element, Equipment, Source
from coordination.study.keeping import Keeping
from coordination.trace import Value

if TYPE_CHECKING:
    from coordination.study.always_live import Live
    from coordination.study.outages import Event, Left, Outages, Outcome, Supplied


class Continuity(Keeping):
    """What a study knows about single events; `Study` is one."""

    @property
    def outages(self) -> tuple[Outcome, ...]:
        """What each single event changes in this condition (see `outages`)."""
        return self._outages.outcomes

    @property
    def before_any_event(self) -> Outcome:
        """What is dark, or without a battery, in this condition as it is drawn."""
        return self._outages.as_drawn

    @property
    def always_live(self) -> Live:
        """The points that no switch turns off, as the system is drawn."""
        from coordination.study.always_live import live_points

        return self._of_drawing("always live", "", lambda: live_points(self.system))

    def own_branch(self, equipment: Equipment) -> tuple[Element, ...]:
        """Elements that serve this equipment alone, whatever is open or closed."""
        from coordination.study.outages.branch import own_branch

        return self._of_drawing(
            "own branch", equipment.name, lambda: own_branch(self.system, equipment)
        )

    def may_have_battery(self, source: Source | Converter) -> bool:
        """Whether a battery stands beside a charging source with every switch closed."""
        from coordination.study.outages.branch import beside_batteries

        found = self._of_drawing("batteries", "", lambda: beside_batteries(self.system))
        return source.name in found

    def events_on(self, name: str) -> tuple[tuple[Event, str | Supplied | Left], ...]:
        """Events that strike one piece of equipment or one charging source, with how.

        "dark", or how limited sources alone feed it; of a source, what it is left with.
        """
        return self._outages.by_subject.get(name, ())

    def limited_supply(self, supplied: Supplied) -> Value:
        """The most [A] that limited sources give where they alone feed equipment."""
        from coordination.study.outages.steps import limit

        return limit(self.network, supplied)

    def limited_demand(self, supplied: Supplied) -> Value:
        """What is drawn [A] from limited sources where they alone feed equipment."""
        from coordination.study.outages.steps import demand

        return demand(self.network, supplied)

    @cached_property
    def _outages(self) -> Outages:
        from coordination.study.outages import Outages

        return Outages(self.network)
