"""`fusewright shore`: what an inlet carries, the limit to set, and what is named as not checked."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

CHECKOUT = Path(__file__).parents[3]
DOCK = CHECKOUT / "fixtures/systems/small/f14-at-the-dock.yaml"


def words(text: str) -> list[str]:
    """The lines with single blanks."""
    return [" ".join(line.split()) for line in text.splitlines()]


def changed(tmp_path: Path, *pairs: tuple[str, str]) -> Path:
    """The demo file with texts replaced, each standing there once."""
    text = DOCK.read_text(encoding="utf-8")
    for old, new in pairs:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    file = tmp_path / "dock.yaml"
    file.write_text(text, encoding="utf-8")
    return file


def test_the_trade_case(fusewright: Any) -> None:
    """9.60 + 8.70 + 4.35 = 22.6 A on 16 A; 2.96 A left are 21.5 A DC: 368 Ah / 21.5 A."""
    ended = fusewright("shore", DOCK)
    assert ended.status == 0
    found = words(ended.out)
    assert "Inlet dock (pedestal, 230 V, 50 Hz)" in found
    assert "galley straight through 8.70 A" in found
    assert "heater straight through 4.35 A" in found
    assert "charger charger, at its limit 9.60 A" in found
    assert "together 22.6 A" in found
    assert "then left for charging 2.96 A" in found
    assert "into the bank, DC 21.5 A" in found
    assert "full after at least 17.1 h, bulk only" in found
    assert "inverter 13.0 A 26.1 A 16 A 18 A" in found
    assert "Inlet dock: not in" in found


def test_what_is_outside_is_named(fusewright: Any) -> None:
    out = fusewright("shore", DOCK).out
    for what in ("bonding", "ground-fault", "polarity", "transfer interlock"):
        assert what in out.partition("Not checked:")[2]


def test_share_not_stated_is_the_strict_one_and_says_so(fusewright: Any, tmp_path: Path) -> None:
    """0.8 × 16 A = 12.8 A, less than the loads: nothing is left."""
    out = fusewright("shore", changed(tmp_path, (" continuous: 100 %,", ""))).out
    assert "may be drawn for hours 12.8 A" in words(out)
    assert "NFPA 70:2023, 210.20(A) (from memory)" in " ".join(out.split())
    assert "then left for charging 0 A" in words(out)
    assert "bank: its loads take all of it" in out


def test_limit_on_all_that_comes_in(fusewright: Any, tmp_path: Path) -> None:
    out = fusewright("shore", changed(tmp_path, ("limits: charger", "limits: inlet"))).out
    assert "drawn as the limit is set 16.0 A" in words(out)


def test_unknown_is_named(fusewright: Any, tmp_path: Path) -> None:
    unstated = (", power_factor: 100 %}}\nshore", "}}\nshore")
    out = fusewright("shore", changed(tmp_path, unstated)).out
    assert "together unknown" in words(out)
    assert "  - charger: mains: power_factor" in out


def test_json_is_in_si_and_fits_its_schema(fusewright: Any) -> None:
    schema = json.loads(fusewright("schema", "shore").out)
    answer = json.loads(fusewright("shore", DOCK, "--format", "json").out)
    jsonschema.validate(answer, schema)
    dock = answer["conditions"]["normal"]["dock"]
    assert dock["together_A"] == pytest.approx(22.647, abs=5e-4)
    assert dock["left_for_charging_A"] == pytest.approx(16 - 3000 / 230)
    # 368 Ah × 3600 / (2.9565 A × 230 V × 0.9 / 28.4 V)
    assert dock["time_s"] == pytest.approx(368 * 3600 / (2.95652 * 207 / 28.4), rel=1e-4)
    assert answer["conditions"]["at sea"] == {}
    assert answer["inverters"]["inverter"]["surge_A"] == pytest.approx(6000 / 230)
    assert any("ground-fault" in what for what in answer["not_checked"])


def test_a_file_without_shore(fusewright: Any) -> None:
    ended = fusewright("shore", CHECKOUT / "fixtures/systems/van-cured.yaml")
    assert ended.status == 0
    assert ended.out.startswith("The file names no inlet under shore:.")


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("inlet: dock, power: 2 kW", "inlet: dok, power: 2 kW", "nothing is named 'dok'"),
        ("supply: pedestal", "supply: pedestl", "did you mean 'pedestal'?"),
        ("breaker: 16 A, inlet", "breaker: 16, inlet", "breaker: '16' has no unit"),
        ("input_limit: 16 A, ", "", "limits says what input_limit counts, which is not given"),
        ("power: 2 kW,", "power: 2 kW, current: 8 A,", "power and current are both given"),
        ("usable_depth: 80 %}", "usable_depth: 80 %, mains: {inlet: dock}}", "has no mains"),
        ("voltage: 230 V, frequency", "frequency", "voltage is missing"),
        ("frequency: 50 Hz", "frequency: 50 V", "frequency"),
        ("without: [dock, charger]", "without: [dok, charger]", "did you mean 'dock'?"),
        ("cord_area", "cordarea", "did you mean 'cord_area'?"),
    ],
)
def test_bad_input(fusewright: Any, tmp_path: Path, old: str, new: str, told: str) -> None:
    ended = fusewright("shore", changed(tmp_path, (old, new)))
    assert (ended.status, ended.out) == (2, "")
    assert told in " ".join(ended.err.split())
    assert "Traceback" not in ended.err


def test_verdict(fusewright: Any) -> None:
    ended = fusewright("check", DOCK, "--rule", "shore-overload")
    assert ended.status == 1
    assert "found 22.6 A, required ≤ 16.0 A" in " ".join(ended.out.split())


@pytest.mark.parametrize("width", [60, 80, 120])
def test_no_line_is_wider_than_asked(fusewright: Any, width: int) -> None:
    text = fusewright("shore", DOCK, "--steps", "--width", width).out
    assert max(map(len, text.splitlines())) <= width
