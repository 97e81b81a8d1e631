"""What is left after an event: who is dark, who hangs on limited sources, which source is alone."""

from __future__ import annotations

from typing import Literal, NamedTuple

from coordination.study.outages.events import Event

#: How equipment without a battery fares: "carried" by its limited sources, which can give what is
#: drawn; "starved", which they cannot; "unknown".
State = Literal["carried", "starved", "unknown"]


class Supplied(NamedTuple):
    """Equipment that limited sources alone feed.

    sources -- those that count, and drawn: all that draws from them
    limit, demand -- the most they give, and what is drawn from them [A]; what is not known counts 0
    missing -- what would have to be known
    """

    state: State
    sources: tuple[str, ...] = ()
    drawn: tuple[str, ...] = ()
    limit: float = 0.0
    demand: float = 0.0
    missing: tuple[str, ...] = ()


class Left(NamedTuple):
    """A charging source that runs on with no battery beside it.

    beside -- equipment and converters' inputs that it feeds; empty: nothing but its own wires
    """

    source: str
    beside: tuple[str, ...]


class Outcome(NamedTuple):
    """What an event changes in one condition; all names in the order of the file.

    dark      -- equipment that was live and that no source reaches any more
    stopped   -- converters whose input went dark
    supplied  -- equipment that limited sources alone feed now, where that is new or other than
                 before
    left      -- charging sources that ran with a battery and run without one now
    isolated  -- batteries that had company and now have none
    parted    -- sources that were joined, by the pieces they are in now; empty: none were parted
    live      -- equipment that stays live; only of the event that every switch is off
    """

    event: Event
    dark: tuple[str, ...] = ()
    stopped: tuple[str, ...] = ()
    supplied: tuple[tuple[str, Supplied], ...] = ()
    left: tuple[Left, ...] = ()
    isolated: tuple[str, ...] = ()
    parted: tuple[tuple[str, ...], ...] = ()
    live: tuple[str, ...] = ()

    @property
    def starved(self) -> tuple[str, ...]:
        """Equipment whose limited sources cannot give what is drawn."""
        return tuple(name for name, each in self.supplied if each.state == "starved")

    @property
    def doubtful(self) -> tuple[str, ...]:
        """Equipment of which that is not known."""
        return tuple(name for name, each in self.supplied if each.state == "unknown")

    @property
    def harmless(self) -> bool:
        """Whether nothing changes but which points are joined."""
        return not (self.dark or self.stopped or self.supplied or self.left or self.isolated)
