"""What a reader asked to see of an answer, and which numbers of a finding belong to it."""

from __future__ import annotations

from collections import deque
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple

from coordination.trace import Derived, Unknown

if TYPE_CHECKING:
    from coordination.rules.finding import Finding


class View(NamedTuple):
    """What to show; it never changes a verdict or a count.

    only       -- verdicts to show; empty: all
    full       -- passes in full instead of in one table
    width      -- columns of the text
    restricted -- what kept the run to a part of the checks, in words: "only condition ... was run"
    """

    only: tuple[str, ...] = ()
    full: bool = False
    width: int = 80
    restricted: tuple[str, ...] = ()

    def shows(self, finding: Finding) -> bool:
        """Whether this finding is to be shown."""
        return not self.only or finding.verdict in self.only


def roots(finding: Finding) -> tuple[Derived, ...]:
    """The derivations a finding rests on; of an unknown side, what could be had all the same."""
    found: list[Derived] = []
    for side in (finding.found, finding.required):
        if isinstance(side, Unknown):
            found.extend(side.known)
        elif side is not None:
            found.append(side)
    return tuple(found)


def steps_of(finding: Finding) -> Iterator[Derived]:
    """Every step behind a finding, inputs before what they lead to, each once."""
    seen: set[int] = set()
    for root in roots(finding):
        for step in root.steps():
            if id(step) not in seen:
                seen.add(id(step))
                yield step


def nearest_steps(finding: Finding, limit: int) -> tuple[list[Derived], bool]:
    """What was found and required with the nearest sums, and whether there are earlier ones.

    Looks no further than it must: most of a derivation is worked out only when it is asked for.
    """
    ends = roots(finding)
    near = {id(end) for end in ends}
    queue = deque(ends)
    seen: set[int] = set()
    while queue and len(near) < limit:
        step = queue.popleft()
        if id(step) not in seen:
            seen.add(id(step))
            queue.extend(step.inputs)
            if step.formula:
                near.add(id(step))
    ordered = [step for step in _within(ends, near | seen) if id(step) in near]
    return ordered, any(step.formula and id(step) not in near for step in queue)


def _within(ends: tuple[Derived, ...], allowed: set[int]) -> Iterator[Derived]:
    """The steps of `allowed`, inputs before what they lead to, without leaving it."""
    done: set[int] = set()
    stack = [(end, False) for end in reversed(ends)]
    while stack:
        step, ready = stack.pop()
        if ready:
            yield step
        elif id(step) in allowed and id(step) not in done:
            done.add(id(step))
            stack.append((step, True))
            stack.extend((child, False) for child in reversed(step.inputs))
