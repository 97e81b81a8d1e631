"""What is done is kept, whatever becomes of the program; and nobody else's file is touched."""

from __future__ import annotations

import os
import random
from pathlib import Path

import pytest

from coordination.errors import BadInput
from coordination.fleet.setting import Outcome
from coordination.fleet.state import HEADER, State


def outcome(name: str, verdict: str = "pass") -> Outcome:
    return Outcome(0, {"file": name, "verdict": verdict}, {"file": "0" * 64})


def test_what_is_kept_is_there_again(tmp_path: Path) -> None:
    path = str(tmp_path / "state")
    state = State(path)
    odd = "b\n\udcff\x1b.yaml"
    for name in ("a.yaml", odd):
        state.keep(outcome(name))
    state.keep(outcome("a.yaml", "fail"))
    state.keep(Outcome(0, {"file": "c.yaml"}))
    state.keep(outcome("d.yaml")._replace(kept=True))
    state.close()
    again = State(path)
    assert len(again) == 2
    done = again.done("a.yaml")
    assert done is not None
    assert done.line["verdict"] == "fail"
    assert again.done(os.path.abspath(odd)) is not None
    assert again.done("c.yaml") is None
    assert again.done("d.yaml") is None
    again.close()


@pytest.mark.parametrize("lost", [1, 7, 40, 100])
def test_a_half_written_line_costs_itself_only(lost: int, tmp_path: Path) -> None:
    path = tmp_path / "state"
    state = State(str(path))
    state.keep(outcome("a.yaml"))
    state.keep(outcome("b.yaml"))
    state.close()
    path.write_bytes(path.read_bytes()[:-lost])
    state = State(str(path))
    assert state.done("a.yaml") is not None
    assert state.done("b.yaml") is None
    state.keep(outcome("c.yaml"))
    state.close()
    state = State(str(path))
    assert state.done("a.yaml") is not None
    assert state.done("c.yaml") is not None
    state.close()


def test_a_flipped_bit_costs_its_line_only(tmp_path: Path) -> None:
    path = tmp_path / "state"
    state = State(str(path))
    for number in range(5):
        state.keep(outcome(f"{number}.yaml"))
    state.close()
    whole, chance = path.read_bytes(), random.Random(3)
    for _ in range(100):
        damaged = bytearray(whole)
        damaged[chance.randrange(len(HEADER), len(whole))] ^= 1 << chance.randrange(7)
        path.write_bytes(bytes(damaged))
        state = State(str(path))
        assert 3 <= len(state) <= 5  # a line break that is gone spoils two
        for number in range(5):
            done = state.done(f"{number}.yaml")
            assert done is None or done.line == outcome(f"{number}.yaml").line
        state.close()


@pytest.mark.parametrize("size", [0, 1, len(HEADER) - 1])
def test_a_header_that_was_not_finished_is_begun_again(size: int, tmp_path: Path) -> None:
    path = tmp_path / "state"
    path.write_bytes(HEADER[:size])
    state = State(str(path))
    state.keep(outcome("a.yaml"))
    state.close()
    assert path.read_bytes().startswith(HEADER)
    state = State(str(path))
    assert len(state) == 1
    state.close()


def refused(path: Path) -> str:
    with pytest.raises(BadInput) as error:
        State(str(path))
    return error.value.problems[0].what


def test_another_file_is_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "precious.yaml"
    path.write_text("system: x\n", "utf-8")
    assert "it was left as it is" in refused(path)
    assert path.read_text("utf-8") == "system: x\n"
    path.write_bytes(HEADER.replace(b"1", b"2"))
    assert "another version" in refused(path)
    assert "cannot be kept there" in refused(tmp_path)
    assert "cannot be kept there" in refused(tmp_path / "nowhere" / "state")


def test_two_runs_do_not_share_it(tmp_path: Path) -> None:
    state = State(str(tmp_path / "state"))
    assert refused(tmp_path / "state") == "another recheck is using it"
    state.close()
    State(str(tmp_path / "state")).close()
