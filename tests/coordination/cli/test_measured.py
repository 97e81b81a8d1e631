"""`fusewright measured`: the report, the blank record, the exit status; no file is touched."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

HERE = Path(__file__).parents[1] / "measured"
BENCH, RECORD = HERE / "bench.yaml", HERE / "record.yaml"
VAN = Path(__file__).parents[3] / "fixtures" / "systems" / "van-cured.yaml"


def test_the_report_says_what_was_measured_and_what_changed(fusewright: Any) -> None:
    before = BENCH.read_bytes()
    ended = fusewright("measured", BENCH, RECORD, "--width", 100)
    assert (ended.status, ended.err) == (1, "")
    out = ended.out
    assert "with the measured values" in out
    assert "R = (U_1 − U_2) / (I_2 − I_1) = (26.50 V − 25.80 V) / (220 A − 20 A) = 3.50 mΩ" in out
    assert "at 22 °C, 80 %" in " ".join(out.split())
    assert "3.28 mΩ to 3.73 mΩ" in out
    assert "judged by      3.11 mΩ to 4.85 mΩ" in out
    assert "± 2 % (common practice, not stated)" in out
    assert "± 0.5 % and the last digit (of each reading), bench meter 17" in out
    assert "Verdicts that changed (1)" in out
    assert "fail -> pass  fundamentals/interrupt-rating" in out
    assert "resistance: {min: 3.11 mΩ, max: 4.85 mΩ}    # measured 2026-03-05: pack" in out
    assert "To make it permanent (nothing was written)" in out
    assert BENCH.read_bytes() == before


@pytest.mark.parametrize("width", [60, 80, 120])
def test_the_report_keeps_to_the_width(width: int, fusewright: Any) -> None:
    out = fusewright("measured", BENCH, RECORD, "--width", width).out
    told = [line for line in out.splitlines() if "resistance: {" not in line]
    told = [line for line in told if "parts:" not in line]
    assert max(map(len, told)) <= max(width, 80)


def test_a_measurement_against_the_prediction_ends_with_3(
    tmp_path: Path, fusewright: Any
) -> None:
    """The cured van checks clean; a terminal at 70 °C in 20 °C at 4.5 A is not as drawn."""
    path = tmp_path / "r.yaml"
    text = "system: Bracken Two, mended\ndate: 2026-03-05\nterminals:\n  fridge fuse: "
    path.write_text(text + "{current: 4.5 A, temperature: 22 °C, ambient: 20 °C}\n", "utf-8")
    good = fusewright("measured", VAN, path)
    assert (good.status, good.err) == (0, "")
    assert "None: no resistance was measured." in good.out
    path.write_text(text + "{current: 4.5 A, temperature: 70 °C, ambient: 20 °C}\n", "utf-8")
    assert fusewright("measured", VAN, path).status == 3
    path.write_text(text + "{current: 4.5 A, temperature: 99 °C, ambient: 20 °C}\n", "utf-8")
    assert fusewright("measured", VAN, path).status == 1


def test_a_blank_record_is_written_once(tmp_path: Path, fusewright: Any) -> None:
    path = tmp_path / "r.yaml"
    ended = fusewright("measured", BENCH, "--blank", "-o", path)
    assert (ended.status, ended.err) == (0, "")
    assert 'system: "Bench \\"one\\""' in path.read_text("utf-8")
    text = path.read_bytes()
    again = fusewright("measured", BENCH, "--blank", "-o", path)
    assert again.status == 2
    assert "there is such a file already; it was left as it is" in again.err
    assert path.read_bytes() == text


@pytest.mark.parametrize(
    "words", [(), ("--blank",), (RECORD, "-o", "x.yaml"), (RECORD, "--blank", "-o", "x.yaml")]
)
def test_half_a_request_is_refused(words: tuple[object, ...], fusewright: Any) -> None:
    ended = fusewright("measured", BENCH, *words)
    assert ended.status == 2
    assert "RECORD.yaml" in ended.err


def test_problems_of_a_record_are_told_with_its_name(tmp_path: Path, fusewright: Any) -> None:
    path = tmp_path / "r.yaml"
    path.write_text(RECORD.read_text("utf-8").replace("heater fuse", "heater fuze"), "utf-8")
    ended = fusewright("measured", BENCH, path)
    assert (ended.status, ended.out) == (2, "")
    assert f"{path}:18:3: terminals: nothing there is named 'heater fuze'" in ended.err
    assert "did you mean 'heater fuse'?" in ended.err


EVIL = '=cmd|"<b>: {x} # &'


def test_names_that_mean_harm_go_through_a_blank_record(tmp_path: Path, fusewright: Any) -> None:
    evil = EVIL.replace("'", "''")
    system = tmp_path / "s.yaml"
    text = BENCH.read_text("utf-8").replace("heater fuse", f"'{evil}'")
    system.write_text(text.replace('Bench "one"', "'[x]: *y'"), "utf-8")
    record = tmp_path / "r.yaml"
    assert fusewright("measured", system, "--blank", "-o", record).status == 0
    filled = record.read_text("utf-8")
    key = '"=cmd|\\"<b>: {x} # &":\n    current:'
    assert filled.count(key) == 1
    before, _, after = filled.partition(key)
    readings = " 80 A\n    temperature: 33 °C\n    ambient: 25 °C\n"
    rest = after.split("\n", 3)[3]
    dated = before.replace("date:", "date: 2026-03-05", 1)
    record.write_text(f"{dated}{key}{readings}{rest}", "utf-8")
    ended = fusewright("measured", system, record, "--width", 200)
    assert ended.err == ""
    assert EVIL in ended.out
