"""Bad records: every problem at once, each at its place, with what is allowed and a near miss."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import yaml

from coordination.checking import Request, judged, prepare
from coordination.errors import BadInput, Problem
from coordination.measured import blank_record, read_measured

HERE = Path(__file__).parent
HEAVY = "heavy: {current: 220 A, voltage: 25.80 V}"


@pytest.fixture
def system() -> Any:
    return prepare(Request(str(HERE / "bench.yaml")))[0]


@pytest.fixture
def problems(changed: Callable[..., Path], system: Any) -> Callable[..., tuple[Problem, ...]]:
    def find(*changes: tuple[str, str]) -> tuple[Problem, ...]:
        with pytest.raises(BadInput) as caught:
            read_measured(str(changed("record.yaml", *changes)), system)
        return caught.value.problems

    return find


Find = Callable[..., tuple[Problem, ...]]


def test_a_whole_record_is_read(system: Any) -> None:
    record = read_measured(str(HERE / "record.yaml"), system)
    (pack,) = record.batteries
    assert (record.date, record.by, record.condition) == ("2026-03-05", "yard", "normal")
    assert (pack.open_circuit, pack.temperature, pack.state_of_charge) == (26.6, 22.0, 0.8)
    assert pack.light is not None
    assert (pack.light.current, pack.light.voltage) == (20.0, 26.5)
    assert (record.voltage.accuracy, record.voltage.stated) == (0.005, True)
    assert (record.current.accuracy, record.current.stated) == (0.02, False)
    assert record.voltage.serial == "bench meter 17"


def test_all_problems_are_told_together_at_their_places(problems: Find) -> None:
    found = problems(
        ("drop: 0.21 V", "drop: 0.21"),
        ("  heater fuse:", "  heater fuze:"),
        ("date: 2026-03-05", "date: 5 March"),
        ("open_circuit:", "open_circut:"),
        ("by: yard", "by: yard\nby: me"),
    )
    assert [(each.line, each.column) for each in found] == [
        (3, 7), (5, 1), (10, 5), (17, 33), (19, 3)
    ]  # fmt: skip
    assert found[0].allowed == "YYYY-MM-DD"
    assert found[1].what == "duplicate key 'by'; it stands in line 4 already"
    assert found[2].near_miss == "open_circuit"
    assert "drop" in found[3].what
    assert found[4].near_miss == "heater fuse"


@pytest.mark.parametrize(
    ("change", "what"),
    [
        ((HEAVY, "heavy: {current: 20 A, voltage: 25.80 V}"), "is not above the light one"),
        ((HEAVY, "heavy: {current: 220 A, voltage: 26.50 V}"), "is not below that at the light"),
        ((f"    {HEAVY}\n", ""), "light without heavy"),
        (("    temperature: 22 °C\n", ""), "temperature is missing"),
        (("    state_of_charge: 80 %\n", ""), "state_of_charge is missing"),
        ((HEAVY, "heavy: {current: 220 A, voltage: 26.49 V}"), "step in voltage is no larger"),
        ((HEAVY, "heavy: {current: 22 A, voltage: 25.80 V}"), "step in current is no larger"),
        ((HEAVY, "heavy: {current: 220 A}"), "heavy.voltage is missing"),
        (("22 °C", "400 °C"), "out of range"),
        (("drop: 0.21 V", "drop: 0.21 A"), "drop"),
        (("drop: 0.21 V", "drop: 0.21 V, drawing: some"), "drawing cannot be 'some'"),
        (("Bench \"one\"", "Bench two"), "the record is of 'Bench two'"),
        (("by: yard", "condition: at se"), "the system has no condition 'at se'"),
        (("{accuracy: 0.5 %,", "{accuracy: 50 %,"), "out of range"),
        (("drops:\n  heater:", "drops:\n  shore charger:"), "nothing there is named"),
        (("  pack:", "  shore charger:"), "nothing there is named 'shore charger'"),
        (("terminals:\n  heater fuse:", "terminals:\n  heater cable:"), "nothing there is named"),
        (("meters:", "meters:\n  temperature: {accuracy: 40 °F}"), "write it in °C"),
        (("meters:", "meters:\n  temperature: {accuracy: -1 °C}"), "out of range"),
        (("by: yard", "by: &me yard"), "anchor '&me' is not allowed"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused(change: tuple[str, str], what: str, problems: Find) -> None:
    (found,) = problems(change)
    assert what in found.what
    assert found.line > 0


def test_what_is_left_empty_counts_as_not_measured(changed: Any, system: Any) -> None:
    path = changed(
        "record.yaml",
        ("drop: 0.21 V", "drop: "),
        ("heater: {current: 80 A,", "heater: {current: ,"),
        (", limit: 16 A", ", limit: "),
        ("    open_circuit: 26.60 V\n", "    open_circuit:\n"),
    )
    record = read_measured(str(path), system)
    assert record.drops == ()
    assert record.batteries[0].open_circuit is None
    assert record.shore is not None
    assert record.shore.limit is None


@pytest.mark.parametrize("text", ["", "\n", "system:\ndate:\n", "[]", "a: [1", "x", "\x00"])
def test_an_empty_or_broken_record_is_refused(text: str, tmp_path: Path, system: Any) -> None:
    path = tmp_path / "r.yaml"
    path.write_text(text, "utf-8")
    with pytest.raises(BadInput):
        read_measured(str(path), system)


def test_a_record_without_any_reading_is_refused(tmp_path: Path, system: Any) -> None:
    path = tmp_path / "r.yaml"
    path.write_text("system: Bench \"one\"\ndate: 2026-03-05\n", "utf-8")
    with pytest.raises(BadInput) as caught:
        read_measured(str(path), system)
    assert caught.value.problems[0].what == "nothing is measured in this record"


def test_a_blank_record_is_yaml_and_says_what_is_expected(tmp_path: Path) -> None:
    request = Request(str(HERE / "bench.yaml"))
    system, packs = prepare(request)
    text = blank_record(judged(request, system, packs), date(2026, 3, 5))
    held = yaml.safe_load(text)
    assert held["system"] == 'Bench "one"'
    assert list(held["drops"]) == ["heater", "lamp"]
    assert list(held["batteries"]) == ["pack"]  # a charger is none
    assert "expected 25.6 V to 27.2 V" in text
    assert "at most 1.20 V allowed" in text  # 5 % of 24 V
    path = tmp_path / "r.yaml"
    path.write_text(text, "utf-8")
    with pytest.raises(BadInput) as caught:
        read_measured(str(path), system)
    assert [each.what.partition(":")[0] for each in caught.value.problems] == [
        "date is missing", "nothing is measured in this record"
    ]  # fmt: skip


def test_a_filled_in_blank_record_is_read(tmp_path: Path) -> None:
    request = Request(str(HERE / "bench.yaml"))
    system, packs = prepare(request)
    text = blank_record(judged(request, system, packs), date(2026, 3, 5))
    lines = text.splitlines()
    lines[lines.index(next(x for x in lines if x.startswith("date:")))] = "date: 2026-03-05"
    at = next(n for n, x in enumerate(lines) if x.startswith("  current:"))
    at = next(n for n, x in enumerate(lines) if n > at and x.startswith("  current:"))
    lines[at] = "  current: 9.3 A"
    path = tmp_path / "r.yaml"
    path.write_text("\n".join(lines), "utf-8")
    record = read_measured(str(path), system)
    assert record.shore is not None
    assert record.shore.current == 9.3
    assert record.batteries == record.drops == record.terminals == ()
