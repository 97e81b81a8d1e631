"""`fusewright margins`: what people and machines are told."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

FILE = Path(__file__).parents[1] / "margins" / "one_battery.yaml"
SMALL = Path(__file__).parents[3] / "fixtures" / "systems" / "small"


def test_the_nearest_edge_is_told_first(fusewright: Any) -> None:
    done = fusewright("margins", FILE)
    assert (done.status, done.err) == (0, "")
    told = " ".join(done.out.split())
    first = told.partition("Nearest first ")[2]
    assert first.startswith(
        "fundamentals/interrupt-rating of main fuse passes until least resistance of bank < "
        "1.36 mΩ (now 1.40 mΩ, 2.9 % less)"
    )
    assert "voltage: 75 % to 125 %; resistance, length, current: a tenth to ten times" in told
    assert "t-100: curve: settles 3 by itself" in told
    assert "safe" not in told.lower()
    assert max(map(len, done.out.splitlines())) <= 80


def test_one_rule_on_one_part_tells_every_flip_and_what_moves_it(fusewright: Any) -> None:
    told = " ".join(fusewright("margins", FILE, "main fuse", "device-load").out.split())
    assert "passes until air temperature of locker > 50.0 °C (now 30 °C, 20 °C more)" in told
    assert "fails until air temperature of locker ≥ 60.1 °C" in told
    assert "then is unproven" in told
    assert "Moves no figure" in told
    assert "interrupt-rating" not in told


def test_the_answer_for_machines_keeps_to_its_schema(fusewright: Any) -> None:
    answer = json.loads(fusewright("margins", FILE, "--format", "json").out)
    schema = json.loads(fusewright("schema", "margins").out)
    jsonschema.validate(answer, schema)
    wanted = "bank-24: resistance.min"
    (resistance,) = (each for each in answer["inputs"] if each["datum"] == wanted)
    (flip,) = resistance["flips"]
    assert (flip["direction"], flip["better"], flip["text"]) == ("below", False, "1.36 mΩ")
    assert resistance["searched"] == pytest.approx([0.14e-3, 14e-3])
    assert answer["missing"][0]["decides"] == []
    broken = {**answer, "inputs": [{**resistance, "now": None}]}
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(broken, schema)


def test_what_the_checks_do_not_reach_is_named(fusewright: Any) -> None:
    done = fusewright("margins", FILE, "--checks", 20)
    told = " ".join(done.out.split())
    assert done.status == 0
    assert "20 checks" in told
    assert "Left out, as the allowed checks were used up" in told
    assert "length of cable" in told.partition("Left out")[2]


def test_inputs_can_be_picked(fusewright: Any) -> None:
    answer = json.loads(
        fusewright("margins", FILE, "--input", "machine", "--format", "json").out
    )
    assert [each["what"] for each in answer["inputs"]] == ["current of machine"]


@pytest.mark.parametrize(
    ("arguments", "near"),
    [
        (["main fues"], "main fuse"),
        (["main fuse", "interrupt-ratings"], "interrupt-rating"),
        (["--input", "lenth of cable"], "length of cable"),
        (["--condition", "normale"], "normal"),
    ],
)
def test_what_there_is_not_ends_with_2_and_a_near_miss(
    arguments: list[str], near: str, fusewright: Any
) -> None:
    done = fusewright("margins", FILE, *arguments)
    assert (done.status, done.out) == (2, "")
    assert f"did you mean '{near}'?" in done.err


def test_a_broken_file_is_told_with_its_place(fusewright: Any, systems: Any) -> None:
    done = fusewright("margins", systems.broken())
    assert (done.status, done.out) == (2, "")
    assert "broken.yaml:" in done.err
