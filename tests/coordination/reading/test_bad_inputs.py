"""Every kind of mistake in a system file gives the reviewed messages, and no others."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from coordination.errors import BadInput

CASES = yaml.safe_load((Path(__file__).parent / "bad_inputs.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("name", CASES)
def test_problems_are_told_with_place_and_remedy(name, good, problems_of):
    case = CASES[name]
    assert good.count(case["old"]) == 1
    assert problems_of(good.replace(case["old"], case["new"])) == case["problems"]


def test_problems_name_the_file(good, system_of):
    with pytest.raises(BadInput) as caught:
        system_of(good.replace("length: 0.6 m,", "length: 0.6,"))
    assert [problem.file for problem in caught.value.problems] == ["boat.yaml"]


def test_there_are_many_cases_and_each_expects_something():
    assert len(CASES) >= 100
    assert all(case["problems"] for case in CASES.values())


def test_every_problem_of_a_file_is_told_at_once(good, problems_of):
    changed = good
    expected = set()
    for name in ("misspelt field", "bare number", "unknown place", "waiver without a reason"):
        case = CASES[name]
        changed = changed.replace(case["old"], case["new"])
        expected |= {problem.partition(": ")[2] for problem in case["problems"]}
    assert {problem.partition(": ")[2] for problem in problems_of(changed)} == expected


@pytest.mark.parametrize("count", [499, 501, 3000])
def test_endless_problems_are_counted_not_listed(count, problems_of):
    text = "equipment:\n" + "".join(f"  pump {n}: {{curent: 1 A}}\n" for n in range(count))
    told = problems_of(text)
    assert len(told) <= 501
    # Three keys are missing at the top; each entry has one unknown key.
    assert (told[-1] == f"0:0: {count + 3 - 500} more problems are not listed") == (count + 3 > 500)
