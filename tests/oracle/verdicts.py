"""Sets the engine's verdicts beside the judge's, by kind of disagreement."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection
from dataclasses import dataclass, field
from typing import Any

from tests.oracle.clears import CLEARS
from tests.oracle.engine import check
from tests.oracle.generate import make, text_of
from tests.oracle.judge import RULES
from tests.oracle.lasting import LASTING, SUPPLIES
from tests.oracle.plant import Element, Plant, Supply, read
from tests.oracle.reasons import reason
from tests.oracle.state import State, Verdict, worst
from tests.oracle.timed import TIMED

BY_ELEMENT = RULES | TIMED | LASTING | CLEARS
ALL = (*BY_ELEMENT, *SUPPLIES)
#: Within this share of the limit two verdicts may differ by rounding.
EDGE = {"cable-withstand": 0.03, "selectivity": 0.03}
ROUNDING = 1e-3


@dataclass
class Disagreements:
    """What agreed and what did not.

    kinds    -- "rule: engine says, judge says: reason" to how many
    examples -- the first of each kind
    wrong_passes -- the engine passes what the judge does not, with where
    """

    systems: int = 0
    agreed: Counter[str] = field(default_factory=Counter)
    kinds: Counter[str] = field(default_factory=Counter)
    examples: dict[str, str] = field(default_factory=dict)
    wrong_passes: list[str] = field(default_factory=list)

    def merge(self, other: Disagreements) -> None:
        """Add others."""
        self.systems += other.systems
        self.agreed += other.agreed
        self.kinds += other.kinds
        self.examples = {**other.examples, **self.examples}
        self.wrong_passes += other.wrong_passes

    def lines(self) -> list[str]:
        """All of it, a line each."""
        found = [f"  {rule}: {number} agree" for rule, number in sorted(self.agreed.items())]
        found += [f"  {number:6} {kind} (first: {self.examples[kind]})"
                  for kind, number in self.kinds.most_common()]  # fmt: skip
        found += [f"  WRONG PASS {each}" for each in self.wrong_passes[:50]]
        return [*found, f"  wrong passes: {len(self.wrong_passes)}"]


def judge(seed: int) -> Disagreements:
    """One generated system; two of three are small, for speed."""
    text = text_of(make(seed, small=seed % 3 > 0))
    answer = check(text, ALL)
    return disagreements(read(text), answer, f"seed {seed}")


def disagreements(
    plant: Plant, answer: dict[str, Any], where: str, only: Collection[str] = ()
) -> Disagreements:
    """Every rule on every element or source; the worst of all conditions, as in the answer.

    only -- the rules to judge by; all by default
    """
    found = Disagreements(systems=1)
    states = [State(plant, condition) for condition in plant.conditions]
    said = {(f["rule"].partition("/")[2], f["subject"]): f for f in answer["findings"]}
    for name in only or ALL:
        rule: Any = BY_ELEMENT.get(name) or SUPPLIES[name]
        for subject in plant.elements if name in BY_ELEMENT else plant.supplies:
            each = [verdict for state in states if (verdict := rule(state, subject))]
            _one(found, said.get((name, subject.name)), worst(each), name, subject, states, where)
    return found


def _one(
    found: Disagreements, finding: dict[str, Any] | None, judged: Verdict | None, rule: str,
    subject: Element | Supply, states: list[State], where: str,
) -> None:  # fmt: skip
    engine = "nothing" if finding is None else str(finding["verdict"])
    own = "nothing" if judged is None else judged.verdict
    if engine == own:
        found.agreed[rule] += 1
        return
    used = 0.0 if judged is None else judged.used
    place = f"{where}, {subject.name}"
    if abs(used - 1.0) <= EDGE.get(rule, ROUNDING):
        why = "within rounding of the limit"
    else:
        why = reason(rule, engine, judged, finding, subject, states)
    if engine == "pass" and not why:
        found.wrong_passes.append(f"{rule}, {place}: judge says {own}, {used:.4g} of the limit")
    kind = f"{rule}: engine {engine}, judge {own}: {why or 'NOT EXPLAINED'}"
    found.kinds[kind] += 1
    found.examples.setdefault(kind, place)
