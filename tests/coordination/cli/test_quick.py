"""The short way into `check` asks for exactly what typer would ask for, or leaves it to typer."""

from __future__ import annotations

import subprocess
import sys
from typing import Any

import pytest

from coordination.cli.app import build
from coordination.cli.quick import Check, Report, usual

USUAL = [
    "check a.yaml",
    "check a.yaml --format json",
    "check --format markdown a.yaml --all",
    "check a.yaml --condition one-pack-out --pack us --pack eu --rule fundamentals/x --rule y",
    "check --only fail --only note a.yaml --width 72 --debug",
    "check a.yaml --catalogue shop.sqlite --width 400",
    "check --debug --all --only pass a.yaml",
    "check a.yaml --format junit",
    "check a.yaml --format sarif --all",
    "report a.yaml -o a.html",
    "report --output b.pdf a.yaml --sections basis,passes --sections verdict --language de",
    "report a.yaml -o a.html --pack us --without-pack eu --rules-from r.py --house-rules h.yaml",
    "report a.yaml -o a.html --catalogue shop.sqlite --debug",
]
LEFT_TO_TYPER = [
    "",
    "--help",
    "check",
    "check --help",
    "check a.yaml b.yaml",
    "check a.yaml --format",
    "explain a b",
    "check a.yaml --format pdf",
    "check a.yaml --width 39",
    "check a.yaml --width wide",
    "check a.yaml --nope",
    "check a.yaml --width ²",
    "check a.yaml --only bad",
    "check --format=json a.yaml",
    "check -- a.yaml",
    "check a.yaml --rule --all",
    "check a.yaml --form json",
    "check a.yaml --format json --format text",
    "check a.yaml --width 401",
    "check a.yaml -h",
    "check - --x",
    "check a.yaml --all yes",
    "check a.yaml --sealed",
    "report",
    "report a.yaml",
    "report a.yaml b.yaml -o a.html",
    "report a.yaml -o",
    "report a.yaml -oa.html",
    "report a.yaml -o a.html -o b.html",
    "report a.yaml -o a.html --lang de",
    "report a.yaml -o a.html --condition normal",
    "report --help",
]


def by_typer(words: list[str], monkeypatch: pytest.MonkeyPatch) -> Check | Report:
    asked: list[Check | Report] = []

    def take(each: Check | Report) -> int:
        asked.append(each)
        return 0

    monkeypatch.setattr("coordination.cli.check.check_file", take)
    monkeypatch.setattr("coordination.cli.report.write_report", take)
    with pytest.raises(SystemExit):
        build(words)(words, prog_name="fusewright")
    return asked[0]


@pytest.mark.parametrize("line", USUAL)
def test_both_ways_ask_for_the_same(line: str, monkeypatch: pytest.MonkeyPatch) -> None:
    words = line.split()
    quick = usual(words)
    assert quick is not None
    assert quick == by_typer(words, monkeypatch)


@pytest.mark.parametrize("line", LEFT_TO_TYPER)
def test_whatever_is_not_usual_is_left_to_typer(line: str) -> None:
    assert usual(line.split()) is None


def test_a_name_with_blanks_is_one_word() -> None:
    assert usual(["check", "my boat.yaml", "--condition", "one pack out"]) == Check(
        file="my boat.yaml", condition="one pack out"
    )


HEAVY = (
    "numpy", "pint", "matplotlib", "pydantic", "rich", "scipy", "sqlite_utils", "pandas",
    "msgspec", "tabulate", "rapidfuzz",
)  # fmt: skip
#: Used to take arguments apart, but for the usual check and report.
PARSER = "typer"
PROBE = f"""
import os, sys
from coordination.cli import main

def tell():
    names = (name for name in {(*HEAVY, PARSER)!r} if name in sys.modules)
    print(*names, file=sys.stderr, flush=True)
leave = os._exit
def tell_and_leave(status):
    tell()
    leave(status)
os._exit = tell_and_leave
try:
    main()
finally:
    tell()
"""


def loaded(*arguments: str) -> tuple[int, str]:
    """The exit status, and what heavy things were loaded."""
    command = [sys.executable, "-c", PROBE, *arguments]
    done = subprocess.run(command, capture_output=True, text=True, check=False)
    return done.returncode, done.stderr


def test_a_check_loads_nothing_heavy(systems: Any) -> None:
    assert loaded("check", str(systems.good())) == (0, "\n")
    assert loaded("check", str(systems.failing()), "--format", "json") == (1, "\n")


@pytest.mark.parametrize("arguments", [["--help"], ["--version"], ["check", "--help"]])
def test_starting_up_loads_nothing_heavy(arguments: list[str]) -> None:
    assert loaded(*arguments) == (0, f"{PARSER}\n")


def test_the_whole_report_is_printed_before_leaving(systems: Any, process: Any) -> None:
    for path, status in ((systems.good(), 0), (systems.failing(), 1), (systems.unproven(), 3)):
        done = process("check", path, "--all")
        assert done.status == status
        assert done.out.endswith(" first.\n")


def test_a_check_without_a_file_is_typers_to_refuse(process: Any) -> None:
    done = process("check")
    assert done.status == 2
    assert "FILE" in done.err
