"""Every event of one network with what it leaves, and the same as it is drawn, before any event."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from functools import cached_property

from coordination.network import Network
from coordination.study.outages.after import Left, Outcome, Supplied
from coordination.study.outages.events import Event, events
from coordination.study.outages.pieces import Piece, Standing
from coordination.study.outages.supply import Currents, Supply

#: How an event strikes a subject: it is dark, hangs on limited sources, or runs without a battery.
Struck = str | Supplied | Left
#: The state as drawn, as an event that does nothing.
NOTHING = Event("", "")


class Outages:
    """The outages of one condition, worked out when first asked for."""

    def __init__(self, network: Network) -> None:
        self.network = network
        self._standing = Standing(network)
        self._currents = Currents(network)
        self._place = {
            name: number
            for number, name in enumerate(
                (*network.system.sources, *network.system.converters, *network.system.equipment)
            )
        }
        self._before = _State(self._standing.base, self._currents)

    @cached_property
    def as_drawn(self) -> Outcome:
        """What is dark, fed by limited sources alone or without a battery before any event."""
        before = self._before
        dark = [
            name
            for number, piece in enumerate(before.pieces)
            if not before.supply.live[number]
            for name in piece.equipment
        ]
        left = tuple(before.alone.values())
        supplied = {name: before.supplied(n) for name, n in before.unbuffered.items()}
        return Outcome(
            NOTHING,
            self._ordered(dark),
            self._ordered(before.stopped),
            tuple((name, supplied[name]) for name in self._ordered(supplied)),
            self._lefts(left),
            live=self._ordered(before.lit),
        )

    @cached_property
    def outcomes(self) -> tuple[Outcome, ...]:
        """What each event changes, in the order of the events."""
        base, pieces = self._standing.base, self._standing.cuts.piece
        at = {feed.source.name: pieces[feed.point] for feed in self.network.feeds}
        return tuple(self._outcome(event, base) for event in events(self.network, at))

    @cached_property
    def by_subject(self) -> Mapping[str, tuple[tuple[Event, Struck], ...]]:
        """Equipment and charging sources to the events that strike them, and how."""
        found: dict[str, list[tuple[Event, Struck]]] = {}
        for outcome in self.outcomes:
            how: list[tuple[str, Struck]] = [(name, "dark") for name in outcome.dark]
            how += outcome.supplied
            how += [(left.source, left) for left in outcome.left]
            for name, struck in how:
                found.setdefault(name, []).append((outcome.event, struck))
        return {name: tuple(several) for name, several in found.items()}

    def _outcome(self, event: Event, base: list[Piece]) -> Outcome:
        quick = self._branch(event, base) if len(event.opened) == 1 and not event.lost else None
        if quick is not None:
            return quick
        cut, parts = self._standing.parted(event) if event.opened else ({}, [])
        if not cut and not event.lost and event.kind != "all switches":
            return Outcome(event)
        kept = [piece for number, piece in enumerate(base) if number not in cut]
        pieces = [*kept, *parts]
        lost = frozenset(event.lost)
        if lost:
            pieces = [piece.without(lost) if _holds(piece, lost) else piece for piece in pieces]
        before, after = self._before, _State(pieces, self._currents)
        everything = event.kind == "all switches"
        return Outcome(
            event,
            self._ordered(before.lit - after.lit),
            self._ordered(name for name in after.stopped - before.stopped if name not in lost),
            self._worse(after),
            self._lefts(each for name, each in after.alone.items() if name not in before.alone),
            self._ordered((after.isolated - before.isolated) - lost),
            self._parted(parts),
            self._ordered(after.lit) if everything else (),
        )

    def _branch(self, event: Event, base: list[Piece]) -> Outcome | None:
        """The outcome where a branch of loads alone is taken off a battery, as most events do.

        None where it is not so simple. Nothing else of the network is looked at.
        """
        sides = self._standing.sides(event.opened[0])
        if event.kind == "all switches" or sides is None:
            return None
        number, far, _ = sides
        whole, lost = base[number], self._standing.piece(far)
        if not whole.batteries or any(lost[:4]):
            return None
        alone = len(whole.batteries) == 1 and not any(whole[1:4])
        stripped = alone and bool(lost.equipment) and len(lost.equipment) == len(whole.equipment)
        isolated = whole.batteries if stripped else ()
        return Outcome(event, dark=self._ordered(lost.equipment), isolated=isolated)

    def _worse(self, after: _State) -> tuple[tuple[str, Supplied], ...]:
        """Equipment on limited sources alone that had a battery, or fared otherwise, before."""
        found: dict[str, Supplied] = {}
        for name, number in after.unbuffered.items():
            now = after.supplied(number)
            then = self._before.unbuffered.get(name)
            if then is None or self._before.supplied(then).state != now.state:
                found[name] = now
        return tuple((name, found[name]) for name in self._ordered(found))

    def _lefts(self, found: Iterable[Left]) -> tuple[Left, ...]:
        by_name: Mapping[str, Left] = {each.source: each for each in found}
        return tuple(
            Left(name, self._ordered(by_name[name].beside)) for name in self._ordered(by_name)
        )

    def _parted(self, parts: list[Piece]) -> tuple[tuple[str, ...], ...]:
        """Sources that were joined, by the part they are in now, where there are several such."""
        by_home: dict[int, list[tuple[str, ...]]] = {}
        for part in parts:
            names = self._ordered((*part.batteries, *part.limited, *part.outputs))
            if names:
                by_home.setdefault(self._home[names[0]], []).append(names)
        several = (group for groups in by_home.values() if len(groups) > 1 for group in groups)
        return tuple(sorted(several, key=self._first))

    @cached_property
    def _home(self) -> dict[str, int]:
        """Sources and converters' outputs to the piece they are in as drawn."""
        return {
            name: number
            for number, piece in enumerate(self._standing.base)
            for name in (*piece.batteries, *piece.limited, *piece.outputs)
        }

    def _first(self, names: tuple[str, ...]) -> int:
        return self._place[names[0]]

    def _ordered(self, names: Iterable[str]) -> tuple[str, ...]:
        return tuple(sorted(names, key=self._place.__getitem__))


class _State:
    """The pieces at one moment, and who is how in them.

    lit -- equipment that is live; unbuffered -- live without a battery, with its piece
    stopped -- converters whose input is dark; alone -- charging sources that run without a battery
    isolated -- batteries with nothing else beside them
    """

    def __init__(self, pieces: list[Piece], currents: Currents) -> None:
        self.pieces = pieces
        self.supply = Supply(pieces, currents)
        self.lit: set[str] = set()
        self.stopped: set[str] = set()
        self.unbuffered: dict[str, int] = {}
        self.alone: dict[str, Left] = {}
        self.isolated: set[str] = set()
        for number, piece in enumerate(pieces):
            self._look(number, piece)

    def _look(self, number: int, piece: Piece) -> None:
        if not self.supply.live[number]:
            self.stopped.update(piece.inputs)
            return
        self.lit.update(piece.equipment)
        if piece.batteries:
            if len(piece.batteries) == 1 and not any(piece[1:]):
                self.isolated.update(piece.batteries)
            return
        self.unbuffered.update(dict.fromkeys(piece.equipment, number))
        beside = (*piece.equipment, *piece.inputs)
        for name in (*piece.limited, *self.supply.running(number)):
            self.alone[name] = Left(name, beside)

    def supplied(self, number: int) -> Supplied:
        return self.supply.of(number)


def _holds(piece: Piece, lost: frozenset[str]) -> bool:
    return any(name in lost for names in piece[:4] for name in names)
