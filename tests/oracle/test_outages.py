"""Every single event of generated systems, set beside a walk of the whole system without it."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

import pytest

from coordination.checking import Request, prepare, studies_of
from coordination.study.outages import Outcome
from tests.oracle.generate import text_of
from tests.oracle.outages import Seen, events, look, with_contactors
from tests.oracle.plant import read

SYSTEMS, BATCH = 200, 20


def agrees(outcome: Outcome, before: Seen, after: Seen, lost: set[str]) -> bool:
    """Whether the engine says of an event what the walks before and after it show."""
    changed = {
        name: how
        for name, how in after.loads.items()
        if how not in ("dark", "battery") and before.loads[name] != how
    }
    dark = {n for n, how in after.loads.items() if how == "dark" and before.loads[n] != "dark"}
    left = {n: each for n, each in after.alone.items() if n not in before.alone}
    parted = {
        after.together[name]
        for name, mates in before.together.items()
        if not lost and mates != after.together[name]
    }
    return (
        lost or {frozenset(group) for group in outcome.parted} == parted
    ) and (
        set(outcome.dark) == dark
        and {name: each.state for name, each in outcome.supplied} == changed
        and {each.source: frozenset(each.beside) for each in outcome.left} == left
        and set(outcome.isolated) == after.isolated - before.isolated - lost
    )


@pytest.mark.parametrize("first", range(0, SYSTEMS, BATCH))
def test_as_a_walk_of_the_whole_system_shows_it(first: int, tmp_path: Path) -> None:
    met: Counter[str] = Counter()
    for seed in range(first, first + BATCH):
        text = text_of(with_contactors(seed))
        path = tmp_path / f"{seed}.yaml"
        path.write_text(text, encoding="utf-8")
        request, plant = Request(str(path)), read(text)
        for condition, study in studies_of(request, *prepare(request)).items():
            found = {
                (o.event.kind, frozenset(o.event.name.split(" + "))): o for o in study.outages
            }
            before = look(plant, condition, set(), set())
            tried = set()
            for kind, name, opened, lost in events(plant, condition):
                key = kind, name if isinstance(name, frozenset) else frozenset({name})
                tried.add(key)
                outcome = found[key]
                assert (set(outcome.event.opened), set(outcome.event.lost)) == (opened, lost)
                after = look(plant, condition, opened, lost)
                assert agrees(outcome, before, after, lost), (seed, condition, outcome, after)
                met[kind] += 1
                met["dark"] += bool(outcome.dark)
                met["starved"] += bool(outcome.starved)
                met["left"] += bool(outcome.left)
                met["isolated"] += bool(outcome.isolated)
                met["parted"] += bool(outcome.parted)
            assert tried == set(found), (seed, condition)
    for each in ("device", "channel", "switch", "trip", "joint trip", "source", "all switches",
                 "dark", "starved", "left", "isolated", "parted"):  # fmt: skip
        assert met[each] > 3, each


def test_what_stays_live_with_all_switches_off_is_what_diagram_and_labels_say(
    tmp_path: Path,
) -> None:
    compared = 0
    for seed in range(SYSTEMS):
        path = tmp_path / f"{seed}.yaml"
        path.write_text(text_of(with_contactors(seed)), encoding="utf-8")
        request = Request(str(path), condition="normal")
        study = studies_of(request, *prepare(request))["normal"]
        off = [each for each in study.outages if each.event.kind == "all switches"]
        live = {name for name in study.system.equipment if name in study.always_live.points}
        assert {name for each in off or [study.before_any_event] for name in each.live} == live
        compared += len(live)
    assert compared > SYSTEMS
