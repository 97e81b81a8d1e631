"""What surrounds a command: pipes, encodings, interrupts, files that are none."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

import pytest

COMMAND = (sys.executable, "-c", "from coordination.cli import main; main()")


def test_a_reader_that_stops_reading_is_no_error(systems: Any) -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        [*COMMAND, "check", str(systems.good())],
        stdout=writing,
        stderr=subprocess.PIPE,
        check=False,
    )
    os.close(writing)
    assert (done.returncode, done.stderr) == (0, b"")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a full device")
def test_a_full_disk_is_an_error_without_traceback(systems: Any) -> None:
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            [*COMMAND, "check", str(systems.good())],
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.returncode == 2
    assert b"Traceback" not in done.stderr
    assert b"standard output" in done.stderr


def test_closed_streams_change_no_verdict(systems: Any) -> None:
    words = [*COMMAND, "check", str(systems.failing())]
    shell = ["sh", "-c", 'exec "$@" >&- 2>&-', "sh", *words]
    assert subprocess.run(shell, check=False).returncode == 1


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", "cp437"])
def test_a_terminal_that_lacks_signs_gets_words_for_them(systems: Any, encoding: str) -> None:
    done = subprocess.run(
        [*COMMAND, "check", str(systems.failing())],
        env=os.environ | {"PYTHONIOENCODING": encoding, "PYTHONUTF8": "0"},
        capture_output=True,
        check=False,
    )
    text = done.stdout.decode(encoding)
    assert (done.returncode, done.stderr) == (1, b"")
    assert " mohm" in text or " mΩ" in text
    assert "\\u03a9" not in text


def test_json_on_such_a_terminal_is_still_json(systems: Any, process: Any) -> None:
    import json

    path = systems.failing()
    plain = process("check", path, "--format", "json", PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    usual = process("check", path, "--format", "json", PYTHONIOENCODING="utf-8")
    assert plain.out.isascii()
    assert json.loads(plain.out) == json.loads(usual.out)


def _heed_interrupts() -> None:
    """As from a terminal: a shell's background job is started with interrupts ignored."""
    signal.signal(signal.SIGINT, signal.SIG_DFL)


def _opened_by_reader(pipe: Path) -> int:
    """The pipe's writing end, as soon as the command reads it."""
    for _ in range(400):
        try:
            return os.open(pipe, os.O_WRONLY | os.O_NONBLOCK)
        except OSError:
            time.sleep(0.05)
    raise AssertionError("the command never opened its file")


def test_an_interrupt_ends_quietly(tmp_path: Path) -> None:
    pipe = tmp_path / "never.yaml"
    os.mkfifo(pipe)
    with subprocess.Popen(
        [*COMMAND, "check", str(pipe)], stderr=subprocess.PIPE, preexec_fn=_heed_interrupts
    ) as running:
        try:
            writer = _opened_by_reader(pipe)
            # Between opening and reading Python looks at no signal; let it come to wait.
            time.sleep(0.5)
            running.send_signal(signal.SIGINT)
            _, errors = running.communicate(timeout=20)
            os.close(writer)
        finally:
            running.kill()
    assert running.returncode == 130
    assert b"Traceback" not in errors


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\x00\x01\x02",
        b"\xff\xfe\x00",
        b"[",
        b"a: &x [*x]",
        b"- " * 9000,
        b"{" * 10_000,
        b"system: \xed\xa0\x80",
        b"1e308",
    ],
    ids=["empty", "binary", "utf16", "open", "alias", "deep", "deeper", "surrogate", "number"],
)
@pytest.mark.parametrize(
    "command", [("check",), ("faults",), ("explain", "x")], ids=lambda words: words[0]
)
def test_rubbish_ends_with_2_and_no_traceback(
    fusewright: Any, tmp_path: Path, content: bytes, command: tuple[str, ...]
) -> None:
    path = tmp_path / "rubbish.yaml"
    path.write_bytes(content)
    done = fusewright(command[0], path, *command[1:])
    assert (done.status, done.out) == (2, "")
    assert "rubbish.yaml" in done.err
    assert "Traceback" not in done.err
    assert "fault of its own" not in done.err


def test_no_file_a_folder_and_a_file_nobody_may_read(fusewright: Any, tmp_path: Path) -> None:
    locked = tmp_path / "locked.yaml"
    locked.write_text("system: x", encoding="utf-8")
    locked.chmod(0)
    for path in (tmp_path / "none.yaml", tmp_path, locked, "nul\0.yaml"):
        done = fusewright("check", path)
        assert (done.status, done.out) == (2, "")
        assert "Traceback" not in done.err


def test_new_in_a_folder_that_is_not_there(fusewright: Any, tmp_path: Path) -> None:
    done = fusewright("new", tmp_path / "no" / "mine.yaml")
    assert (done.status, done.out) == (2, "")
    assert "Traceback" not in done.err


def test_a_fault_of_the_program_shows_its_place_only_on_demand(
    fusewright: Any, systems: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    def crash(*_: object) -> None:
        raise RuntimeError("deep inside")

    monkeypatch.setattr("coordination.cli.check.findings_of", crash)
    quiet = fusewright("check", systems.good())
    assert (quiet.status, quiet.out) == (2, "")
    assert "RuntimeError: deep inside" in quiet.err
    assert "Traceback" not in quiet.err
    assert "Traceback" in fusewright("check", systems.good(), "--debug").err
