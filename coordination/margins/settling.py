"""What a missing datum would decide: the verdicts over all values it can have, and their edges."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING, Any, Literal, NamedTuple

from coordination.margins.inputs import Input
from coordination.margins.probe import RANK, Probe
from coordination.margins.search import NARROW, Crossing
from coordination.margins.shown import Shown, shown_value
from coordination.margins.supplying import Trial, trial_of

if TYPE_CHECKING:
    from coordination.margins.unknowns import Datum
    from coordination.model import System

#: Values at which a datum is tried, by equal factors.
TRIED = 13
#: What the worst of several findings comes to, by its rank.
Decided = Literal["pass", "unproven", "fail"]
_WORDS: tuple[Decided, ...] = ("pass", "unproven", "fail")


class Stretch(NamedTuple):
    """Values of a datum over which the findings that lack it alone are decided alike.

    low, high -- its ends [SI, °C]; None where it begins or ends with the range that was tried
    choice    -- the value where the datum is one of a few ("yes", "no")
    verdict   -- "pass": all of them pass; "fail": one fails; "unproven": still not settled
    """

    verdict: Decided
    low: Shown | None = None
    high: Shown | None = None
    choice: str = ""


class Settled(NamedTuple):
    """A datum with what it would decide.

    untried -- why there are no stretches
    """

    datum: Datum
    trial: Trial | None
    stretches: tuple[Stretch, ...]
    untried: str = ""


def settled(datum: Datum, system: System, probe: Probe) -> Settled:
    """Try a datum over all its values, on the findings that lack it alone. Raises Spent."""
    trial = trial_of(datum.key, system) if datum.alone else None
    if trial is None:
        why = "is more than one figure, so it was not tried" if datum.alone else ""
        return Settled(datum, None, (), why)

    def rank(value: Any) -> int:
        states = probe.states(trial.put(system, value), datum.alone)
        said = [states[pair] for pair in datum.alone if pair in states] if states else []
        # What is silent or cannot be judged with such a value is not settled by it.
        known = len(said) == len(datum.alone)
        return max(RANK[each.verdict] for each in said) if known else RANK["unproven"]

    if trial.choices:
        tried = [(each, rank(each)) for each in trial.choices]
        found = [Stretch(_WORDS[at], choice="yes" if each else "no") for each, at in tried]
        return Settled(datum, trial, tuple(found))
    return Settled(datum, trial, tuple(_stretches(trial, rank)))


def _stretches(trial: Trial, rank: Callable[[float], int]) -> list[Stretch]:
    low, high = trial.low, trial.high
    assert low is not None
    assert high is not None
    values = [low * (high / low) ** (step / (TRIED - 1)) for step in range(TRIED)]
    ranks = [rank(value) for value in values]
    edges = [
        (at, _edge(trial, values, ranks, at, rank))
        for at in range(TRIED - 1)
        if ranks[at] != ranks[at + 1]
    ]
    starts = [0, *(at + 1 for at, _ in edges)]
    ends: list[Shown | None] = [None, *(shown for _, shown in edges), None]
    return [
        Stretch(_WORDS[ranks[start]], ends[number], ends[number + 1])
        for number, start in enumerate(starts)
    ]


def _edge(
    trial: Trial,
    values: Sequence[float],
    ranks: Sequence[int],
    at: int,
    rank: Callable[[float], int],
) -> Shown:
    """Where the verdict changes between two tried values, shown on its better side."""
    near, far = values[at], values[at + 1]
    while far - near > NARROW * near:
        middle = (near * far) ** 0.5
        near, far = (middle, far) if rank(middle) == ranks[at] else (near, middle)
    before, after = ranks[at], ranks[at + 1]
    crossing = Crossing(("", ""), near, far, _WORDS[before], _WORDS[after], values[at + 1])
    figure = Input("", "", "", trial.dimension, trial.unit, values[at], "", 0, trial.put)
    return shown_value(figure, crossing, lambda value: rank(value) == min(before, after))
