"""What tests of whole systems share: a check of a file, a changed copy of one, an expected row."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import hypothesis
import pytest

from coordination.checking import Request, findings_of
from coordination.report.answer import answer
from coordination.report.view import View

# How long one example takes is no property of ours: it hangs on what else the machine does.
hypothesis.settings.register_profile("unhurried", deadline=None)
hypothesis.settings.load_profile("unhurried")

SYSTEMS = Path(__file__).parent.parent / "fixtures" / "systems"

#: Units of expected rows: SI unit and scale. Kept apart from the program's own table.
_UNITS = {
    "A": ("A", "1"), "kA": ("A", "1e3"), "V": ("V", "1"), "m": ("m", "1"), "mm": ("m", "1e-3"),
    "°C": ("°C", "1"), "%": ("", "1e-2"), "s": ("s", "1"), "ms": ("s", "1e-3"),
}  # fmt: skip


@cache
def _checked(path: Path) -> tuple[int, Mapping[str, Any]]:
    """Exit status and answer of a whole check."""
    findings = findings_of(Request(file=str(path)))
    return findings.exit_status, answer(findings, View())


def _finding(path: Path, rule: str, subject: str) -> Mapping[str, Any]:
    """The one finding of a rule of the pack fundamentals on a subject."""
    name = f"fundamentals/{rule}"
    found: list[Mapping[str, Any]] = [
        each
        for each in _checked(path)[1]["findings"]
        if (each["rule"], each["subject"]) == (name, subject)
    ]
    assert len(found) == 1, f"{len(found)} findings of {name} on {subject}"
    return found[0]


def _agrees(side: Mapping[str, Any] | None, text: str) -> bool:
    """Whether a number of the answer is the written one, within half its last digit."""
    assert side is not None
    number, _, unit = text.partition(" ")
    symbol, scale = _UNITS[unit]
    digit = Decimal(1).scaleb(int(Decimal(number).as_tuple().exponent))
    expected, half = Decimal(number) * Decimal(scale), digit * Decimal(scale) / 2
    assert side["unit"] == symbol
    return abs(Decimal(side["value"]) - expected) <= half * Decimal("1.000001")


def _holds(path: Path, row: Mapping[str, Any]) -> None:
    """Assert that the check of `path` says what a row of an expectation file says."""
    found = _finding(path, row["rule"], row["subject"])
    assert found["verdict"] == row["verdict"], found["because"]
    if "severity" in row:
        assert found["severity"] == row["severity"]
    if "condition" in row:
        assert found["condition"] == row["condition"]
    for side in ("found", "required"):
        if side in row:
            assert _agrees(found[side], row[side]), f"{side}: {found[side]} is not {row[side]}"


@pytest.fixture(autouse=True)
def _no_own_configuration(
    monkeypatch: pytest.MonkeyPatch, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Whoever runs the tests may have house rules; they must change nothing here."""
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path_factory.getbasetemp() / "no-configuration"))


@pytest.fixture
def checked() -> Callable[[Path], tuple[int, Mapping[str, Any]]]:
    """Exit status and answer of a whole check; each file is checked once."""
    return _checked


@pytest.fixture
def holds() -> Callable[[Path, Mapping[str, Any]], None]:
    """Asserts that the check of a file says what a row of an expectation says."""
    return _holds


@pytest.fixture
def variant(tmp_path: Path) -> Callable[..., Path]:
    """A copy of the named system with pieces of its text changed, each there exactly once."""

    def change(system: str, *changes: tuple[str, str]) -> Path:
        text = (SYSTEMS / system).read_text(encoding="utf-8")
        for old, new in changes:
            assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {system}"
            text = text.replace(old, new)
        path = tmp_path / "variant.yaml"
        path.write_text(text, encoding="utf-8")
        return path

    return change
