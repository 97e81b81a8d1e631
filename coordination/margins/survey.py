"""The margins of a whole system: every input searched, within a number of checks."""

from __future__ import annotations

from collections.abc import Collection
from typing import TYPE_CHECKING, NamedTuple

from coordination.margins.inputs import Input, inputs_of, worth_searching
from coordination.margins.probe import SILENT, Pair, Probe, Spent, States
from coordination.margins.search import Crossing, Searcher, Side
from coordination.margins.shown import Shown, shown_value

if TYPE_CHECKING:
    from coordination.model import System
    from coordination.rules.finding import Findings
    from coordination.rules.pack import Packs


class Flip(NamedTuple):
    """A verdict that is another beyond a value of an input.

    before, after -- verdicts: "pass", "fail", "unproven", "note"; empty: no finding
    still, flipped -- two judged values [SI, °C] close together, with one verdict each
    shown          -- a judged value with the better of both verdicts, in a few digits
    upward         -- whether it flips as the input grows
    """

    rule: str
    subject: str
    before: str
    after: str
    still: float
    flipped: float
    shown: Shown
    upward: bool
    better: bool


class Margin(NamedTuple):
    """One input with the flips found, nearest first on each side.

    reached -- between which values [SI, °C] it was searched
    more    -- (better, worse) changes seen further off, which are not narrowed down
    touched -- whether it moves any figure that a rule compares
    """

    input: Input
    flips: tuple[Flip, ...]
    reached: tuple[float, float]
    more: tuple[int, int]
    touched: bool

    @property
    def nearness(self) -> float:
        """How far off the nearest flip for the worse is, as a share of the range; 2: none."""
        low, high = self.input.ends
        away = [abs(each.still - self.input.now) for each in self.flips if not each.better]
        return min(away) / (high - low) if away else 2.0


class Margins(NamedTuple):
    """What was found of all inputs.

    margins -- of those that were searched, the nearest flip first
    zero    -- inputs that are zero, of which nothing is a tenth or ten times
    left    -- inputs that were not searched, as the allowed checks were used up
    base    -- the findings as the file stands
    """

    base: Findings
    margins: tuple[Margin, ...]
    zero: tuple[Input, ...]
    left: tuple[Input, ...]
    checks: int
    seconds: float


class Scope(NamedTuple):
    """What of a system is searched.

    subject, rule -- the only findings that count; then every flip of them is narrowed down
    wanted        -- words, one of which must be in an input's name; none: all inputs
    """

    subject: str | None = None
    rule: str | None = None
    wanted: tuple[str, ...] = ()


def margins_of(
    system: System, packs: Packs, found: Findings, probe: Probe, scope: Scope
) -> Margins:
    """Search every uncertain input for flips, until the probe's checks are spent.

    found -- the findings of the system as it stands
    """
    asked = None if scope.subject is None else _asked(packs, scope.subject, scope.rule)
    inputs = [each for each in inputs_of(system) if _is_wanted(each, scope.wanted)]
    searched: list[Margin] = []
    left: list[Input] = []
    base = None
    for each in filter(worth_searching, inputs):
        try:
            base = probe.states(system) or {} if base is None else base
            searched.append(_margin(system, probe, base, each, asked))
        except Spent:
            left.append(each)
    searched.sort(key=lambda each: each.nearness)
    zero = tuple(each for each in inputs if not worth_searching(each))
    return Margins(found, tuple(searched), zero, tuple(left), probe.checks, probe.seconds)


def _asked(packs: Packs, subject: str, rule: str | None) -> set[Pair]:
    names = packs.rule_names()
    return {(name, subject) for name in names if rule is None or rule in _both(name)}


def _both(name: str) -> tuple[str, str]:
    return name, name.partition("/")[2]


def _is_wanted(each: Input, wanted: Collection[str]) -> bool:
    return not wanted or any(word in each.what or word in each.datum for word in wanted)


def _margin(
    system: System, probe: Probe, base: States, each: Input, asked: set[Pair] | None
) -> Margin:
    searcher = Searcher(system, probe, base, each, asked, every=asked is not None)
    sides = searcher.sides()
    flips = [
        _flip(system, probe, each, crossing) for side in sides for crossing in side.crossings
    ]
    flips.sort(key=lambda flip: abs(flip.still - each.now))
    more = tuple(sum(side.more[at] for side in sides) for at in (0, 1))
    reached = _reached(each, sides)
    return Margin(each, tuple(flips), reached, (more[0], more[1]), searcher.touched)


def _reached(each: Input, sides: tuple[Side, ...]) -> tuple[float, float]:
    ends = [each.now, *(side.reached for side in sides)]
    return min(ends), max(ends)


def _flip(system: System, probe: Probe, each: Input, crossing: Crossing) -> Flip:
    wanted = crossing.after if crossing.better else crossing.before

    def holds(value: float) -> bool:
        states = probe.states(each.put(system, value), {crossing.pair})
        return states is not None and states.get(crossing.pair, SILENT).verdict == wanted

    shown = shown_value(each, crossing, holds)
    rule, subject = crossing.pair
    return Flip(
        rule, subject, crossing.before, crossing.after, crossing.near, crossing.far, shown,
        crossing.far > crossing.near, crossing.better,
    )  # fmt: skip
