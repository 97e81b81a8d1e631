"""`fusewright energy`: what it prints, as text and as JSON, and what it refuses."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

CHECKOUT = Path(__file__).parents[3]
SYSTEMS = CHECKOUT / "fixtures" / "systems"
CASES = CHECKOUT / "plugins/fusewright_budget/cases/systems"
START = CASES / "start_side.yaml"


def row(text: str, head: str) -> list[str]:
    """The cells of the first line that begins so."""
    line = next(each for each in text.splitlines() if each.startswith(head))
    return [cell.strip() for cell in line[len(head) :].split("  ") if cell.strip()]


def test_run_time_with_its_bounds(fusewright: Any) -> None:
    """68.4 Ah, 80 Ah and 84 Ah at 5 A."""
    ended = fusewright("energy", START)
    assert ended.status == 0
    assert row(ended.out, "as designed, on average") == ["5.00 A", "13.7 h", "16.0 h", "16.8 h"]
    assert "usable charge  80.0 Ah as rated; at least 68.4 Ah, at most 84.0 Ah" in ended.out
    # 80 Ah × 25.6 V
    assert "usable energy  2.05 kWh as rated" in ended.out
    assert "Q / I = 80.0 Ah / 5.00 A" in ended.out


def test_measured_currents(fusewright: Any) -> None:
    """At the largest bank where none is named: 68.4 / 8, 80 / 6, 84 / 4."""
    ended = fusewright("energy", START, "--measured", "4 A", "--measured", "8 A")
    cells = row(ended.out, "as measured, mean of 2")
    assert cells == ["6.00 A", "8.55 h", "13.3 h", "21.0 h"]
    named = fusewright("energy", START, "--measured", "starter battery=2 A").out
    assert "as measured" not in named.partition("Bank starter battery")[0]
    assert "as measured" in named.partition("Bank starter battery")[2]


def test_charging_and_the_start_side(fusewright: Any) -> None:
    out = fusewright("energy", START).out
    # 24 A less the plotter's 5 A; 80 Ah / 19 A
    assert row(out, "dc-dc  ")[:3] == ["24 A", "19.0 A", "4.21 h"]
    words = [" ".join(line.split()) for line in out.splitlines()]
    assert "alternator 55.0 A 60 A" in words
    assert "dc-dc 35.0 A 60 A" in words


def test_link(fusewright: Any, tmp_path: Path) -> None:
    file = tmp_path / "link.yaml"
    more = "conditions:\n  emergency: {close: [link switch], without: [alternator, dc-dc]}\n"
    file.write_text(START.read_text(encoding="utf-8") + more, encoding="utf-8")
    out = fusewright("energy", file, "--condition", "emergency").out
    assert "Condition normal" not in out
    assert "Closing link switch, one side full and charging, the other low" in out
    assert row(out, "  at first") == ["150 A"]
    assert row(out, "  falls to 37 % in") == ["30.0 min"]


def test_what_is_unknown_is_named_not_guessed(fusewright: Any) -> None:
    out = fusewright("energy", SYSTEMS / "van-cured.yaml", "--condition", "normal").out
    assert "usable charge  unknown as rated" in out
    assert "  - house battery: usable_depth" in out
    assert "  - the taper at the end of a charge" in out


def test_steps(fusewright: Any) -> None:
    short, whole = (fusewright("energy", START, *more).out for more in ((), ("--steps",)))
    assert "capacity of house C" not in short
    assert "capacity of house C" in whole
    assert "share of house that may be" in whole


@pytest.mark.parametrize("width", [60, 80, 120])
def test_no_line_is_wider_than_asked(fusewright: Any, width: int) -> None:
    text = fusewright("energy", START, "--steps", "--width", width).out
    # Six columns of numbers are not squeezed.
    assert max(map(len, text.splitlines())) <= max(width, 76)


def test_json_is_in_si_and_fits_its_schema(fusewright: Any) -> None:
    schema = json.loads(fusewright("schema", "energy").out)
    for file in (START, CASES / "three.yaml", SYSTEMS / "tender-planted.yaml"):
        answer = json.loads(fusewright("energy", file, "--format", "json").out)
        jsonschema.validate(answer, schema)
    answer = json.loads(fusewright("energy", START, "--format", "json").out)
    house = answer["conditions"]["normal"]["banks"]["house"]
    # 80 Ah × 3600, and 68.4 Ah / 5 A × 3600
    assert house["usable_As"]["nominal"] == pytest.approx(288_000)
    assert house["runs"][0]["time_s"]["least"] == pytest.approx(49_248)
    assert house["runs"][0]["steps"][-1]["formula"] == "Q / I"
    start = answer["conditions"]["normal"]["banks"]["starter battery"]
    assert start["usable_As"]["nominal"] is None
    assert start["runs"][0]["missing"]


def test_every_bad_current_is_told(fusewright: Any) -> None:
    words = [w for text in ("14.2", "hous=3 A", "0 A", "nan A") for w in ("--measured", text)]
    ended = fusewright("energy", START, *words)
    assert (ended.status, ended.out) == (2, "")
    assert "no battery 'hous'" in ended.err
    assert "did you mean 'house'?" in ended.err
    assert "4 problems; nothing was checked." in ended.err
    assert "Traceback" not in ended.err


def test_bad_file_and_condition(fusewright: Any, tmp_path: Path) -> None:
    broken = tmp_path / "broken.yaml"
    broken.write_text(START.read_text(encoding="utf-8").replace("must_run: 10 h", "must_run: 10"))
    ended = fusewright("energy", broken)
    assert ended.status == 2
    assert "must_run: '10' has no unit" in ended.err
    assert fusewright("energy", START, "--condition", "noraml").status == 2
    assert fusewright("energy", tmp_path / "none.yaml").status == 2


def test_hostile_names_do_not_move_the_cursor(fusewright: Any, tmp_path: Path) -> None:
    file = tmp_path / "odd.yaml"
    text = START.read_text(encoding="utf-8").replace("plotter", "\u202eplotter")
    file.write_text(text.replace("house", "house\u2066"), encoding="utf-8")
    ended = fusewright("energy", file)
    assert "\u202e" not in ended.out + ended.err
    assert "\u2066" not in ended.out + ended.err


def test_no_battery_in(fusewright: Any, tmp_path: Path) -> None:
    file = tmp_path / "out.yaml"
    more = "conditions:\n  bare: {without: [house, starter battery]}\n"
    file.write_text(START.read_text(encoding="utf-8") + more, encoding="utf-8")
    assert "No battery is in." in fusewright("energy", file, "--condition", "bare").out
