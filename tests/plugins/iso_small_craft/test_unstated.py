"""What is not stated proves nothing: fields and options taken out of passing systems in turn."""

from __future__ import annotations

from pathlib import Path

import fusewright_iso_small_craft
import pytest

from coordination.errors import BadInput
from coordination.testing.change import changed, dump_text, leaves, load_text
from coordination.testing.run import findings_of
from coordination.trace import Derived

SYSTEMS = sorted((Path(fusewright_iso_small_craft.__path__[0]) / "cases" / "systems").glob("*"))

#: Fields that have a meaning where they are not written.
DEFAULTED = {"place", "ambient", "places", "locker", "engine space", "engine_space"}
#: Ratings and resistances that a cable's derived figures replace, as DESIGN has it.
DERIVED = {"resistance_20c", "min", "max"}
#: Passes that hold without the field all the same, and why.
HOLDS = {
    ("area", "voltage-drop"): "the parts state their resistance, and what is lost is judged",
    ("rated_current", "battery-switch-rating"): "the feeder, which may carry more, counts instead",
}


def tree_of(system: Path) -> dict:
    tree = load_text(system.read_text("utf-8"))
    tree["packs"] = ["iso_small_craft"]
    return tree


def answer(tree: dict):
    found = findings_of(dump_text(tree))
    assert not [problem.what for problem in found.problems if problem.kind == "rule"]
    return {(each.rule, each.subject): each for each in found.findings}


def rests_on(finding, owner: str, field: str) -> bool:
    """Whether a figure of the finding's derivation is the part's or the thing's own field."""
    for value in (finding.found, finding.required):
        for step in value.steps() if isinstance(value, Derived) else ():
            clause = step.source.clause if step.source else ""
            if clause.startswith(f"{owner}: {field}"):
                return True
    return False


@pytest.mark.parametrize("system", SYSTEMS, ids=lambda each: each.stem)
def test_no_pass_rests_on_a_field_that_was_taken_out(system):
    tree = tree_of(system)
    before = answer(tree)
    assert {each.verdict for each in before.values()} <= {"pass", "note"}
    judged, kept = 0, []
    for steps in leaves(tree):
        if steps[0] not in ("parts", "equipment", "sources") or len(steps) != 3:
            continue
        if steps[-1] in DEFAULTED | DERIVED:
            continue
        resting = [k for k, f in before.items() if f.verdict == "pass" and rests_on(f, *steps[1:])]
        try:
            after = answer(changed(tree, {}, (steps,)))
        except BadInput:
            continue
        judged += bool(resting)
        for key in resting:
            if key in after and after[key].verdict == "pass":
                assert after[key].margin <= before[key].margin
                kept.append((steps[-1], key[0].partition("/")[2]))
    assert set(kept) <= set(HOLDS)
    assert judged >= 9


@pytest.mark.parametrize("system", SYSTEMS, ids=lambda each: each.stem)
def test_nothing_crashes_whatever_is_taken_out(system):
    tree = tree_of(system)
    tried = 0
    for steps in leaves(tree):
        try:
            answer(changed(tree, {}, (steps,)))
        except BadInput:
            continue
        tried += 1
    assert tried >= 30


@pytest.mark.parametrize("option", [
    "hull_length", "cells_conform", "safety_philosophy", "battery_management",
    "alarm_before_cutoff", "critical_supply_kept",
])  # fmt: skip
def test_an_option_taken_out_leaves_something_unproven_that_names_it(option):
    tree = tree_of(next(each for each in SYSTEMS if each.stem == "lithium_boat"))
    after = answer(changed(tree, {}, (("options", "iso_small_craft", option),)))
    missing = {phrase for each in after.values() for phrase in each.missing}
    assert [phrase for phrase in missing if f"iso_small_craft: {option} (" in phrase]


def test_every_option_that_a_rule_reads_is_declared():
    folder = Path(fusewright_iso_small_craft.__path__[0])
    declared = {each.name for each in fusewright_options()}
    read = set()
    for file in folder.glob("*.py"):
        for piece in file.read_text("utf-8").split('stated(study, "')[1:]:
            read.add(piece.partition('"')[0])
    lithium = {"cells_conform", "safety_philosophy", "battery_management", "alarm_before_cutoff",
               "critical_supply_kept"}  # fmt: skip
    assert read | lithium == declared


def fusewright_options():
    from fusewright_iso_small_craft.options import of_pack

    return of_pack()
