"""`measured --format json`: as its schema has it, and the same as the text."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

HERE = Path(__file__).parents[1] / "measured"
BENCH, RECORD = HERE / "bench.yaml", HERE / "record.yaml"


@pytest.fixture
def schema(fusewright: Any) -> Any:
    return json.loads(fusewright("schema", "measured").out)


def _told(fusewright: Any, *words: Any) -> tuple[Any, int]:
    ended = fusewright("measured", *words, "--format", "json")
    assert ended.err == ""
    return json.loads(ended.out), ended.status


def test_the_answer_is_as_its_schema_has_it(fusewright: Any, schema: Any) -> None:
    told, status = _told(fusewright, BENCH, RECORD)
    jsonschema.validate(told, schema)
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**told, "status": 2}, schema)
    assert (told["status"], status) == (1, 1)
    assert (told["system"], told["date"], told["by"]) == ('Bench "one"', "2026-03-05", "yard")


def test_the_resistance_is_that_of_the_two_loads(fusewright: Any) -> None:
    """(26.50 V − 25.80 V) / (220 A − 20 A) = 3.5 mΩ; spread −5 % / +30 % by the record."""
    pack = _told(fusewright, BENCH, RECORD)[0]["resistances"]["pack"]
    assert pack["value_ohm"] == pytest.approx(3.5e-3)
    assert pack["by_meters"] == {
        "min_ohm": pytest.approx(3.28e-3, abs=1e-5),
        "max_ohm": pytest.approx(3.73e-3, abs=1e-5),
    }
    assert pack["judged_by"] == {"min_ohm": 3.11e-3, "max_ohm": 4.85e-3}
    assert (pack["spread_under"], pack["spread_over"]) == (0.05, 0.3)
    assert pack["spread_assumed"] is False
    assert pack["steps"][-1]["formula"] == "(U_1 − U_2) / (I_2 − I_1)"


def test_what_is_not_predicted_is_null(fusewright: Any) -> None:
    told = _told(fusewright, BENCH, RECORD)[0]
    shore = next(each for each in told["compared"] if each["what"] == "shore current")
    assert (shore["value"], shore["limit"], shore["verdict"]) == (9.3, 16.0, "within the limit")
    assert (shore["low"], shore["high"]) == (None, None)
    assert told["meters"]["current"] == {
        "accuracy": 0.02, "resolution": None, "stated": False, "instrument": "",
    }  # fmt: skip


def test_changed_verdicts_are_told_with_their_reason(fusewright: Any) -> None:
    (change,) = _told(fusewright, BENCH, RECORD)[0]["changes"]
    assert (change["before"], change["after"]) == ("fail", "pass")
    assert change["rule"] == "fundamentals/interrupt-rating"
    assert change["because"].endswith(".")


def test_bad_input_is_told_as_ever(fusewright: Any, tmp_path: Path) -> None:
    path = tmp_path / "r.yaml"
    path.write_text("system: another\ndate: 2026-03-05\nshore: {curent: 3 A}\n", "utf-8")
    ended = fusewright("measured", BENCH, path, "--format", "json")
    assert (ended.status, ended.out) == (2, "")
    assert "curent" in ended.err
    assert "current" in ended.err


SHORE = """system: Bench "one"
date: 2026-03-05
shore:
  current: {current}
  limit: 32 A
  voltage: 230 V
  loads: 8.7 A
  charging: {{current: 70 A, voltage: 28.4 V, efficiency: 90 %, power_factor: 95 %}}
"""


@pytest.mark.parametrize(
    ("current", "verdict"),
    [("18.6 A", "within"), ("24.0 A", "outside"), ("12.0 A", "outside"), ("40 A", "over")],
)
def test_the_reading_is_held_against_it(
    current: str, verdict: str, tmp_path: Any, fusewright: Any
) -> None:
    path = tmp_path / "r.yaml"
    path.write_text(SHORE.format(current=current), "utf-8")
    ended = fusewright("measured", BENCH, path, "--width", 110)
    (row,) = [line for line in ended.out.splitlines() if line.startswith("shore current")]
    # 67.6 A × 28.158 V and 72.4 A × 28.642 V, over 0.9 × 0.95 × 230 V: 9.68 A and 10.54 A.
    assert "18.1 A to 19.2 A" in row  # √((8.7 + 9.196)² + 3.023²) = 18.15; 8.7 + 10.54
    assert verdict in row


def test_half_a_charger_is_refused(tmp_path: Any, fusewright: Any) -> None:
    path = tmp_path / "r.yaml"
    path.write_text(SHORE.format(current="18 A").replace(", efficiency: 90 %", ""), "utf-8")
    ended = fusewright("measured", BENCH, path)
    assert ended.status == 2
    assert "efficiency" in ended.err


DOCK = Path(__file__).parents[3] / "fixtures" / "systems" / "small" / "f14-at-the-dock.yaml"


@pytest.mark.parametrize(
    ("current", "verdict"),
    [
        ("15.0 A", "within"),
        ("12.0 A", "outside"),  # below what galley and heater draw alone, meter and all: 12.34 A
        ("22.0 A", "over the limit"),
        ("16.0 A", "cannot tell"),
    ],
)
def test_without_more_the_systems_own_inlet_predicts(
    current: str, verdict: str, tmp_path: Any, fusewright: Any
) -> None:
    """Galley 2 kW and heater 1 kW at 230 V: 13.04 A; with the charger's 9.60 A: 22.65 A of 16."""
    path = tmp_path / "r.yaml"
    text = f"system: At the dock\ndate: 2026-03-05\nshore: {{current: {current}}}\n"
    path.write_text(text, "utf-8")
    told, _ = _told(fusewright, DOCK, path)
    (row,) = told["compared"]
    assert (row["low"], row["high"]) == pytest.approx((13.0435, 22.6473), rel=1e-4)
    assert (row["limit"], row["verdict"]) == (16.0, verdict)
    path.write_text(text.replace("shore:", "condition: at sea\nshore:"), "utf-8")
    (row,) = _told(fusewright, DOCK, path)[0]["compared"]
    assert (row["low"], row["limit"], row["verdict"]) == (None, None, "no prediction")
