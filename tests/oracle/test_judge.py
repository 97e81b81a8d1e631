"""Verdicts on generated systems, set beside a brute-force judge's: no pass may be wrong.

The nightly command does the same with thousands: `python -m tests.oracle.nightly --judged 5000`.
"""

from __future__ import annotations

import pytest

from tests.oracle.engine import check
from tests.oracle.generate import make, text_of
from tests.oracle.plant import read
from tests.oracle.verdicts import ALL, Disagreements, disagreements, judge

SYSTEMS, BATCH = 100, 10


@pytest.mark.parametrize("first", range(0, SYSTEMS, BATCH))
def test_no_pass_is_wrong_and_every_other_disagreement_explained(first: int) -> None:
    found = Disagreements()
    for seed in range(first, first + BATCH):
        found.merge(judge(seed))
    assert not found.wrong_passes, "\n".join(found.wrong_passes)
    unexplained = [kind for kind in found.kinds if "NOT EXPLAINED" in kind]
    assert not unexplained, "\n".join(f"{kind}: {found.examples[kind]}" for kind in unexplained)
    assert all(found.agreed[rule] > 20 for rule in ALL)


@pytest.mark.parametrize("rule", ALL)
def test_a_fail_turned_into_a_pass_is_noticed(rule: str) -> None:
    for seed in range(40):
        text = text_of(make(seed, small=True))
        answer = check(text, (rule,))
        plant = read(text)
        for finding in answer["findings"]:
            if finding["verdict"] == "fail":
                finding["verdict"] = "pass"
                if len(disagreements(plant, answer, "", (rule,)).wrong_passes) == 1:
                    return
                finding["verdict"] = "fail"
    raise AssertionError("no fail of this rule that the judge would miss")
