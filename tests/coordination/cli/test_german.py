"""`--language` of what is drawn and listed: German words, a decimal comma, names as written."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

VAN = Path(__file__).parents[3] / "fixtures" / "systems" / "van-planted.yaml"


def test_a_diagram_in_german(fusewright: Any, tmp_path: Path) -> None:
    out = tmp_path / "d.svg"
    ended = fusewright("draw", VAN, "-o", out, "--language", "de")
    assert (ended.status, ended.err) == (0, "")
    svg = out.read_text("utf-8")
    for said in ("main fuse", "5 kA bei 32 V", "Sammelschiene 500 A", "13,0 / 6,53 kA", "Anlage"):
        assert f">{said}<" in svg
    assert "prospective" not in svg
    assert "\ue000" not in svg


def test_a_chart_in_german(fusewright: Any, tmp_path: Path) -> None:
    out = tmp_path / "c.svg"
    ended = fusewright("curves", VAN, "inverter fuse", "-o", out, "--language", "de")
    assert (ended.status, ended.err) == (0, "")
    svg = out.read_text("utf-8")
    for said in ("Zeit, s", "Strom, A", "Last 207 A, inverter fuse", "0,01", "10 000"):
        assert f">{said}<" in svg
    assert "hatched" not in svg
    assert "\ue000" not in svg


def test_a_schedule_in_german(fusewright: Any, tmp_path: Path) -> None:
    ended = fusewright("schedule", "devices", VAN, "--language", "de", "--width", 200)
    assert (ended.status, ended.err) == (0, "")
    assert "Bemessungsgleichspannung" in ended.out
    assert "5 kA bei 32 V" in ended.out
    assert "main fuse" in ended.out
    assert "\ue000" not in ended.out
    out = tmp_path / "s.csv"
    assert fusewright("schedule", "labels", VAN, "--language", "de", "-o", out).status == 0
    rows = out.read_text("utf-8-sig").splitlines()
    assert rows[0].startswith('"Schild","bei","Ort"')
    assert any("möglicher Kurzschlussstrom 10,6 kA" in row for row in rows)


@pytest.mark.parametrize("command", ["draw", "curves"])
def test_a_language_there_is_not_is_refused_before_anything_is_written(
    command: str, fusewright: Any, tmp_path: Path
) -> None:
    out = tmp_path / "x.svg"
    ended = fusewright(command, VAN, "-o", out, "--language", "dee")
    assert ended.status == 2
    assert "did you mean 'de'?" in ended.err
    assert not out.exists()
