"""Taking a statement out never makes anything pass, and no pass rests on what is not there."""

from __future__ import annotations

import re
from pathlib import Path

import fusewright_us_small_craft
import pytest

from coordination.errors import BadInput
from coordination.testing.change import changed, dump_text, leaves, load_text
from coordination.testing.run import findings_of
from coordination.trace import Derived

SYSTEMS = sorted((Path(fusewright_us_small_craft.__path__[0]) / "cases" / "systems").glob("*.yaml"))
PACK = "us_small_craft"
#: Everything that the pack asks, answered so that nothing is left unproven.
ANSWERS = {
    "petrol_engine": "yes", "as_near_as_practical": "yes", "self_limiting": "no",
    "devices_on_bus": "yes", "breakers_reset_by_hand": "yes", "ignition": "protected",
    "batteries_installed": "yes", "cold_cranking_amps": "1200 A", "panelboards": "bus",
    "cells_tested": "yes", "battery_management": "yes", "alarm_before_cutoff": "yes",
    "remote_switch_breaks_coil": "yes", "next_standard_rating": "yes", "engines_tied": "yes",
    "cores_within_30_in": "yes",
}  # fmt: skip
#: Fields of which it is stated what holds where they are not written, or that count as the worst.
DEFAULTED = ("resistance", "resistance_20c", "place", "draw", "conditions", "order")


def judged(tree):
    found = findings_of(dump_text(tree), packs=(PACK,)).findings
    return {(f.rule, f.subject): f for f in found if f.rule.startswith(f"{PACK}/")}


def fields(finding) -> set[tuple[str, str]]:
    """Owner and field of every statement in the finding's derivation."""
    sides = [side for side in (finding.found, finding.required) if isinstance(side, Derived)]
    clauses = [step.source.clause for side in sides for step in side.steps() if step.source
               and step.source.document in ("part data", "system file")]  # fmt: skip
    pairs = (clause.partition(": ") for clause in clauses if ": " in clause)
    return {(owner, re.sub(r", line \d+$", "", field)) for owner, _, field in pairs}


def answered(file: Path):
    tree = load_text(file.read_text("utf-8"))
    tree["options"] = {PACK: dict(ANSWERS)}
    return tree


@pytest.mark.parametrize("file", SYSTEMS, ids=lambda file: file.stem)
def test_with_every_answer_nothing_is_left_unproven(file):
    verdicts = {finding.verdict for finding in judged(answered(file)).values()}
    assert "unproven" not in verdicts
    assert "pass" in verdicts


@pytest.mark.parametrize("file", SYSTEMS, ids=lambda file: file.stem)
def test_no_answer_taken_out_makes_anything_pass(file):
    tree = answered(file)
    before = judged(tree)
    lost = {}
    for option in ANSWERS:
        after = judged(changed(tree, {}, [["options", PACK, option]]))
        gained = {key for key, finding in after.items() if finding.verdict == "pass"} - {
            key for key, finding in before.items() if finding.verdict == "pass"
        }
        assert gained == set(), option
        lost[option] = before.keys() - after.keys()
    # Only the engine's answer takes rules away, the law's, and then its scope is unproven.
    assert {option for option, keys in lost.items() if keys} == {"petrol_engine"}


@pytest.mark.parametrize("file", SYSTEMS, ids=lambda file: file.stem)
def test_no_pass_rests_on_a_field_that_was_taken_out(file):
    tree = answered(file)
    before, tried, survived = judged(tree), 0, []
    for steps in leaves(tree["parts"], ("parts",)):
        owner, field = steps[1], ".".join(steps[2:])
        if not field or steps[2] in DEFAULTED:
            continue
        resting = {
            key for key, finding in before.items() if finding.verdict == "pass"
            and any(o == owner and f.partition(".")[0] == steps[2] for o, f in fields(finding))
        }  # fmt: skip
        if not resting:
            continue
        try:
            after = judged(changed(tree, {}, [steps]))
        except BadInput:
            continue
        tried += 1
        survived += [(steps, key) for key in resting & after.keys() if after[key].verdict == "pass"]
    assert tried >= 4
    assert survived == []
