"""A probe asks less and answers the same; it counts, and stops where it was told to."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from coordination.checking import Request, judged, prepare
from coordination.margins.inputs import inputs_of, worth_searching
from coordination.margins.probe import Probe, Spent

SYSTEMS = Path(__file__).parents[3] / "fixtures" / "systems"


def probe_of(path: Path, limit: int | None = None) -> tuple[Any, Probe]:
    request = Request(str(path))
    system, packs = prepare(request)
    return system, Probe(lambda each, some: judged(request, each, some), packs, limit)


def test_a_part_of_the_questions_has_the_same_answers() -> None:
    system, probe = probe_of(SYSTEMS / "van-planted.yaml")
    whole = probe.states(system)
    assert whole is not None
    some = sorted(whole)[::7]
    assert probe.states(system, some) == {pair: whole[pair] for pair in some}
    assert probe.checks == 2


def test_a_waived_fail_counts_as_the_fail_that_it_is() -> None:
    system, probe = probe_of(SYSTEMS / "tender-cured.yaml")
    states = probe.states(system)
    assert states is not None
    assert sum(state.verdict == "fail" for state in states.values()) == len(system.waivers)


def test_the_limit_holds() -> None:
    system, probe = probe_of(SYSTEMS / "small" / "p02-rating-at-14-v.yaml", limit=1)
    probe.states(system)
    with pytest.raises(Spent):
        probe.states(system)
    assert probe.checks == 1


@pytest.mark.parametrize("name", ["van-planted", "tender-planted", "cabin-planted"])
def test_an_input_put_back_changes_nothing(name: str) -> None:
    system, _ = probe_of(SYSTEMS / f"{name}.yaml")
    inputs = inputs_of(system)
    assert len({each.datum for each in inputs}) == len(inputs) > 40
    for each in inputs:
        assert each.put(system, each.now) == system, each.what


def test_an_input_moves_and_stays_within_its_bounds() -> None:
    system, _ = probe_of(SYSTEMS / "van-planted.yaml")
    for each in filter(worth_searching, inputs_of(system)):
        low, high = each.ends
        assert low <= each.now <= high
        for end in (low, high):
            if end != each.now:
                assert each.put(system, end) != system, each.what
