"""The README tells the truth: its session is what the commands print."""

from __future__ import annotations

import re
import shlex
from pathlib import Path
from typing import Any

import pytest

CHECKOUT = Path(__file__).parents[3]
README = (CHECKOUT / "README.md").read_text(encoding="utf-8")
SESSIONS = re.findall(r"```console\n\$ fusewright ([^\n]*)\n(.*?)```", README, re.DOTALL)


def missing_chunk(expected: str, printed: list[str]) -> str | None:
    """The first run of lines between "..." that does not stand in what was printed, in order."""
    place = 0
    for chunk in expected.split("...\n"):
        lines = chunk.splitlines()
        ends = range(place, len(printed) - len(lines) + 1)
        found = next((at for at in ends if printed[at : at + len(lines)] == lines), None)
        if found is None:
            return chunk
        place = found + len(lines)
    return None


@pytest.mark.parametrize(("command", "expected"), SESSIONS, ids=[each[0] for each in SESSIONS])
def test_a_session_is_what_is_printed(
    fusewright: Any, monkeypatch: pytest.MonkeyPatch, command: str, expected: str
) -> None:
    monkeypatch.chdir(CHECKOUT)
    printed = fusewright(*shlex.split(command)).out.splitlines()
    assert expected.count("\n") > 3
    assert missing_chunk(expected, printed) is None, "run: python tests/refresh_readme.py"


def test_there_are_sessions() -> None:
    commands = {shlex.split(command)[0] for command, _ in SESSIONS}
    assert commands == {
        "check", "compare", "energy", "explain", "faults", "margins", "outage", "parts", "recheck",
        "shore", "suggest",
    }  # fmt: skip


def test_a_false_session_would_be_noticed() -> None:
    assert missing_chunk("a\n...\nc\n", ["a", "b", "c"]) is None
    assert missing_chunk("a\n...\nd\n", ["a", "b", "c"]) == "d\n"
    assert missing_chunk("c\n...\na\n", ["a", "b", "c"]) == "a\n"


def test_the_excerpt_stands_in_the_demo_file() -> None:
    excerpt = re.search(r"```yaml\n(.*?)```", README, re.DOTALL)
    assert excerpt is not None
    system = (CHECKOUT / "fixtures/systems/van-planted.yaml").read_text(encoding="utf-8")
    assert excerpt[1] in system


def test_the_first_block_has_the_two_commands_and_the_demo_checks_clean(
    fusewright: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = re.search(r"```sh\n(.*?)```", README, re.DOTALL)
    assert first is not None
    install, test = first[1].splitlines()
    assert test.endswith(".venv/bin/python -m pytest -n auto")
    monkeypatch.chdir(CHECKOUT)
    assert fusewright(*install.rpartition(".venv/bin/fusewright ")[2].split()).status == 0


def test_every_command_is_named(fusewright: Any) -> None:
    listed = re.findall(
        r"^  (\w+) ", fusewright("--help").out.partition("Commands:")[2], re.MULTILINE
    )
    assert "check" in listed
    for command in listed:
        if command != "Exit":
            assert f"`fusewright {command}" in README
