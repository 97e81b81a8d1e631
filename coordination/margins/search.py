"""Where verdicts flip as one input moves away from its present value: sampled, then bisected.

Nothing is taken to be monotone: verdicts are looked at in steps over the whole range, every step
in which one changes is halved until it is narrow, and the verdicts on both its sides were judged.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from itertools import pairwise
from math import exp, log
from typing import TYPE_CHECKING, NamedTuple

from coordination.margins.probe import SILENT, Pair, Probe, State, States

if TYPE_CHECKING:
    from coordination.margins.inputs import Input
    from coordination.model import System

#: Steps in which each side of the present value is sampled.
STEPS = 6
#: A bracket is narrow enough at this share of its value, or of the range where that has none.
NARROW = 1e-4


class Sample(NamedTuple):
    """A value of the input and what rules say there."""

    value: float
    states: States

    def of(self, pair: Pair) -> State:
        """What the rule says of the subject."""
        return self.states.get(pair, SILENT)


class Crossing(NamedTuple):
    """A narrow step in which the verdict of one rule on one subject changes.

    near, far -- the step's ends, the first on the side of the present value; both were judged
    next_far  -- how far the verdict is known to stay as it is beyond: the next sample
    """

    pair: Pair
    near: float
    far: float
    before: str
    after: str
    next_far: float

    @property
    def better(self) -> bool:
        """Whether the verdict becomes a better one on the far side."""
        return State(self.after).rank < State(self.before).rank


class Side(NamedTuple):
    """One side of the present value: where verdicts change, nearest first.

    reached   -- the last value that could be judged
    crossings -- those that were narrowed down
    more      -- (better, worse) changes further on that were seen and not narrowed down
    """

    reached: float
    crossings: tuple[Crossing, ...]
    more: tuple[int, int]


class Searcher:
    """Searches one input of one system.

    asked -- the only pairs that count; None: all
    touched -- whether the input moves any figure of what is asked; known once it was searched
    every -- narrow down every change, not only the nearest for the better and for the worse
    """

    def __init__(
        self, system: System, probe: Probe, base: States, each: Input,
        asked: Collection[Pair] | None = None, *, every: bool = False,
    ) -> None:  # fmt: skip
        self._system, self._probe, self._each = system, probe, each
        self._base, self._asked, self._every = base, asked, every
        self.touched = False

    def sides(self) -> tuple[Side, ...]:
        """What lies below and above the present value. Raises Spent."""
        ends = [end for end in self._each.ends if end != self._each.now]
        looked = {end: self._judged(end, self._asked) for end in ends}
        moved = {
            pair
            for states in looked.values()
            if states is not None
            for pair in {*states, *self._base}
            if states.get(pair, SILENT) != self._base.get(pair, SILENT)
        }
        if self._asked is not None:
            moved &= set(self._asked)
        self.touched = bool(moved)
        return tuple(self._side(end, looked[end], moved) for end in ends)

    def _judged(self, value: float, pairs: Collection[Pair] | None) -> States | None:
        return self._probe.states(self._each.put(self._system, value), pairs)

    def _side(self, end: float, last: States | None, moved: set[Pair]) -> Side:
        samples = [Sample(self._each.now, self._base)]
        if moved:
            for value in list(_steps(self._each, end))[:-1]:
                states = self._judged(value, moved)
                if states is None:
                    break
                samples.append(Sample(value, states))
            else:
                samples += [Sample(end, last)] if last is not None else []
        reached = samples[-1].value if moved or last is None else end
        return self._narrowed(samples, moved, reached)

    def _narrowed(self, samples: list[Sample], moved: set[Pair], reached: float) -> Side:
        changes = {
            cell: _changed(near, far, moved) for cell, (near, far) in enumerate(pairwise(samples))
        }
        wanted = changes if self._every else self._nearest(samples, changes)
        found: list[Crossing] = []
        for cell, pairs in wanted.items():
            groups = [{pair} for pair in sorted(pairs)] if self._every else [pairs]
            for group in groups:
                found += self._crossings(samples[cell], samples[cell + 1], group)
        found.sort(key=lambda each: (abs(each.near - self._each.now), each.pair))
        told = {each.pair for each in found}
        return Side(reached, tuple(found), self._more(samples, changes, told))

    def _nearest(
        self, samples: list[Sample], changes: Mapping[int, set[Pair]]
    ) -> dict[int, set[Pair]]:
        """The first step with a change for the better, and the first with one for the worse."""
        wanted: dict[int, set[Pair]] = {}
        for better in (True, False):
            for cell, pairs in changes.items():
                alike = {
                    pair
                    for pair in pairs
                    if _is_better(samples[cell], samples[cell + 1], pair) is better
                    and samples[cell].of(pair).rank == self._base.get(pair, SILENT).rank
                }
                if alike:
                    wanted[cell] = wanted.get(cell, set()) | alike
                    break
        return wanted

    def _more(
        self, samples: list[Sample], changes: Mapping[int, set[Pair]], told: set[Pair]
    ) -> tuple[int, int]:
        rest = [
            _is_better(samples[cell], samples[cell + 1], pair)
            for cell, pairs in changes.items()
            for pair in pairs - told
        ]
        return rest.count(True), rest.count(False)

    def _crossings(self, near: Sample, far: Sample, group: set[Pair]) -> Iterator[Crossing]:
        """Narrow steps in which the first of a group's verdicts change, for better and worse."""
        for better in (True, False):
            pairs = {pair for pair in group if _is_better(near, far, pair) is better}
            if pairs:
                yield from self._first(near, far, pairs)

    def _first(self, near: Sample, far: Sample, pairs: set[Pair]) -> Iterator[Crossing]:
        start, beyond = near, far.value
        while not self._narrow(near.value, far.value):
            middle = _middle(self._each, near.value, far.value)
            states = self._judged(middle, pairs)
            if states is None:
                return
            here = Sample(middle, states)
            # Whatever changes first counts; those that change later are left behind.
            if _changed(start, here, pairs):
                far = here
            else:
                near = here
        for pair in sorted(_changed(start, far, pairs)):
            if self._by_the_other_end(far, pair):
                continue
            before, after = start.of(pair).verdict, far.of(pair).verdict
            yield Crossing(pair, near.value, far.value, before, after, beyond)

    def _by_the_other_end(self, far: Sample, pair: Pair) -> bool:
        """Whether a change is that of the band's other end, which was moved along."""
        if self._each.other is None:
            return False
        end, put = self._each.other
        if (far.value - end) * (end - self._each.now) <= 0.0:
            return False
        states = self._probe.states(put(self._system, far.value), {pair})
        return states is not None and states.get(pair, SILENT).rank == far.of(pair).rank

    def _narrow(self, near: float, far: float) -> bool:
        low, high = self._each.ends
        scale = abs(near) if self._each.logarithmic else high - low
        return abs(far - near) <= NARROW * scale


def _changed(near: Sample, far: Sample, pairs: Collection[Pair]) -> set[Pair]:
    return {pair for pair in pairs if near.of(pair).rank != far.of(pair).rank}


def _is_better(near: Sample, far: Sample, pair: Pair) -> bool:
    return far.of(pair).rank < near.of(pair).rank


def _steps(each: Input, end: float) -> Iterator[float]:
    """Values from the present one, excluded, to `end`, by equal factors or equal differences."""
    now = each.now
    for step in range(1, STEPS):
        share = step / STEPS
        yield now * exp(log(end / now) * share) if each.logarithmic else now + (end - now) * share
    yield end


def _middle(each: Input, near: float, far: float) -> float:
    return (near * far) ** 0.5 if each.logarithmic else (near + far) / 2


