"""Which pieces of a network are live, and whether limited sources can carry what is drawn there.

A battery is taken to give what is drawn; what limits itself gives its limit and no more. A
converter carries from its input to its output while its input is live, and counts for nothing
where its input is starved.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from coordination.network import Injection, Network
from coordination.network.stated import of_file
from coordination.study.outages.after import State, Supplied
from coordination.study.outages.pieces import Piece
from coordination.trace import Derived, Value, reckon

#: Sums of equal figures may differ by their rounding.
ROUNDING = 1e-9
_RING = "what converters that feed each other in a ring can give"


def limit_of(injection: Injection, network: Network) -> Value:
    """The most [A] that a source gives in this condition: of a converter, the share it draws."""
    name = injection.source.name
    share = network.condition.draw.get(name)
    if share is None or share == 1.0:
        return injection.limit
    words = f"limit of {name} in this condition"
    stated = of_file(network.condition, f"draw.{name}", share, "share it draws", "share", "")
    return reckon(
        lambda most, part: most * part, words, "I", "A", "I × share", injection.limit, stated
    )


class Currents:
    """What each source gives at most and each load draws [A], by name; the same in all events."""

    def __init__(self, network: Network) -> None:
        self.limits: Mapping[str, Value] = {
            each.source.name: limit_of(each, network) for each in network.injections
        }
        self.draws: Mapping[str, Value] = {
            each.subject.name: each.current for each in network.draws
        }


class Supply:
    """The supply of all pieces after one event."""

    def __init__(self, pieces: Sequence[Piece], currents: Currents) -> None:
        self.pieces, self.currents = pieces, currents
        self._input_at = {name: n for n, piece in enumerate(pieces) for name in piece.inputs}
        self.live = self._reached()
        self._kept: dict[int, Supplied] = {}

    def _reached(self) -> list[bool]:
        """Whether a source, or a converter that has one before it, feeds each piece."""
        live = [bool(piece.batteries or piece.limited) for piece in self.pieces]
        output_at = {name: n for n, piece in enumerate(self.pieces) for name in piece.outputs}
        waiting = [number for number, fed in enumerate(live) if fed]
        while waiting:
            for name in self.pieces[waiting.pop()].inputs:
                beyond = output_at.get(name)
                if beyond is not None and not live[beyond]:
                    live[beyond] = True
                    waiting.append(beyond)
        return live

    def running(self, number: int) -> tuple[str, ...]:
        """Converters with their output in a piece whose input is live."""
        return tuple(
            name
            for name in self.pieces[number].outputs
            if name in self._input_at and self.live[self._input_at[name]]
        )

    def of(self, number: int) -> Supplied:
        """How limited sources carry a live piece without a battery."""
        if number not in self._kept:
            # Where converters feed one another in a ring, what comes round is not counted on.
            self._kept[number] = Supplied("unknown", missing=(_RING,))
            self._kept[number] = self._sum(number)
        return self._kept[number]

    def _sum(self, number: int) -> Supplied:
        piece = self.pieces[number]
        missing: dict[str, None] = {}
        given = tuple(
            name
            for name in (*piece.limited, *self.running(number))
            if self._before(name, missing) != "starved"
        )
        drawn = (*piece.equipment, *piece.inputs)
        limit = sum(_figure(self.currents.limits[name], missing) for name in given)
        demand = sum(_figure(self.currents.draws[name], missing) for name in drawn)
        enough = demand <= limit * (1 + ROUNDING)
        state: State = "unknown" if missing else "carried" if enough else "starved"
        return Supplied(state, given, drawn, limit, demand, tuple(missing))

    def _before(self, source: str, missing: dict[str, None]) -> str:
        """How the input of a converter fares; a source of its own has none."""
        number = self._input_at.get(source)
        if number is None or self.pieces[number].batteries:
            return "carried"
        supplied = self.of(number)
        if supplied.state == "unknown":
            missing.update(dict.fromkeys(supplied.missing))
        return supplied.state


def _figure(value: Value, missing: dict[str, None]) -> float:
    if isinstance(value, Derived):
        return value.value
    missing.update(dict.fromkeys(value.missing))
    return 0.0
