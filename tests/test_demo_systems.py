"""The demo systems: as drawn each shows its planted faults and no others, as mended each passes.

Expected numbers are hand calculations: in the `.expected.yaml` beside a system, in the comments of
a small one, or here. Traps are variants of these systems, made by changing their text.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal
from functools import cache
from pathlib import Path
from typing import Any

import pytest
import yaml

import coordination
from coordination.cli.pipeline import Request, findings_of
from coordination.report.answer import answer
from coordination.report.view import View

ROOT = Path(__file__).parent.parent
SYSTEMS = ROOT / "fixtures" / "systems"
STARTER = Path(coordination.__file__).with_name("starter.yaml")

PLANTED = ("tender-planted", "van-planted", "cabin-planted")
CURED = ("tender-cured", "van-cured", "cabin-cured")

#: Units of the expectation files: SI unit and scale. Kept apart from the program's own table.
UNITS = {
    "A": ("A", "1"), "kA": ("A", "1e3"), "V": ("V", "1"), "m": ("m", "1"), "mm": ("m", "1e-3"),
    "°C": ("°C", "1"), "%": ("", "1e-2"),
}  # fmt: skip


@cache
def checked(path: Path) -> tuple[int, Mapping[str, Any]]:
    """Exit status and answer of a whole check."""
    findings = findings_of(Request(file=str(path)))
    return findings.exit_status, answer(findings, View())  # type: ignore[return-value]


def variant(folder: Path, system: str, *changes: tuple[str, str]) -> Path:
    """The named system with pieces of its text changed; each piece must be there exactly once."""
    text = (SYSTEMS / system).read_text(encoding="utf-8")
    for old, new in changes:
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {system}"
        text = text.replace(old, new)
    path = folder / "variant.yaml"
    path.write_text(text, encoding="utf-8")
    return path


def finding(path: Path, rule: str, subject: str) -> Mapping[str, Any]:
    """The one finding of a rule of the pack fundamentals on a subject."""
    name = f"fundamentals/{rule}"
    found = [
        each
        for each in checked(path)[1]["findings"]
        if (each["rule"], each["subject"]) == (name, subject)
    ]
    assert len(found) == 1, f"{len(found)} findings of {name} on {subject}"
    return found[0]


def agrees(side: Mapping[str, Any] | None, text: str) -> bool:
    """Whether a number of the answer is the written one, within half its last digit."""
    assert side is not None
    number, _, unit = text.partition(" ")
    symbol, scale = UNITS[unit]
    digit = Decimal(1).scaleb(int(Decimal(number).as_tuple().exponent))
    expected, half = Decimal(number) * Decimal(scale), digit * Decimal(scale) / 2
    assert side["unit"] == symbol
    return abs(Decimal(side["value"]) - expected) <= half * Decimal("1.000001")


def holds(path: Path, row: Mapping[str, Any]) -> None:
    """Assert that the check of `path` says what a row of an expectation file says."""
    found = finding(path, row["rule"], row["subject"])
    assert found["verdict"] == row["verdict"], found["because"]
    if "severity" in row:
        assert found["severity"] == row["severity"]
    if "condition" in row:
        assert found["condition"] == row["condition"]
    for side in ("found", "required"):
        if side in row:
            assert agrees(found[side], row[side]), f"{side}: {found[side]} is not {row[side]}"


def expectation(system: str) -> Mapping[str, Any]:
    """The expectation file beside a system."""
    text = (SYSTEMS / f"{system}.expected.yaml").read_text(encoding="utf-8")
    loaded: Mapping[str, Any] = yaml.safe_load(text)
    return loaded


def rows(system: str) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Every expected finding with the name of the fault it belongs to."""
    loaded = expectation(system)
    for section in ("planted", "besides", "not_faults"):
        for name, fault in loaded[section].items():
            for row in fault.get("expect", ()):
                yield name, row


ROWS = [
    pytest.param(system, row, id=f"{system} {name} {row['rule']} {row['subject']}")
    for system in PLANTED
    for name, row in rows(system)
]


@pytest.mark.parametrize(("system", "row"), ROWS)
def test_expected_finding_is_there(system: str, row: Mapping[str, Any]) -> None:
    holds(SYSTEMS / f"{system}.yaml", row)


@pytest.mark.parametrize("system", PLANTED)
def test_nothing_fails_or_stays_open_that_is_not_expected(system: str) -> None:
    status, told = checked(SYSTEMS / f"{system}.yaml")
    listed = {
        (f"fundamentals/{row['rule']}", row["subject"], row["verdict"]) for _, row in rows(system)
    }
    shown = {(each["rule"], each["subject"], each["verdict"]) for each in told["findings"]}
    loose = {each for each in shown - listed if each[2] in ("fail", "unproven")}
    assert not loose
    assert told["problems"] == []
    assert status == 1


@pytest.mark.parametrize("system", PLANTED)
def test_every_fault_is_expected_now_or_left_to_a_named_rule(system: str) -> None:
    loaded = expectation(system)
    assert loaded["system"] == f"{system}.yaml"
    for name, fault in {**loaded["planted"], **loaded["not_faults"]}.items():
        assert fault["what"], name
        assert bool(fault.get("expect")) != bool(fault.get("later")), name
        numbers = any("found" in row for row in fault.get("expect", ()))
        assert not numbers or fault["origin"], f"{name}: a number without its arithmetic"


@pytest.mark.parametrize(
    "path", [*(SYSTEMS / f"{name}.yaml" for name in CURED), STARTER], ids=lambda path: path.stem
)
def test_mended_system_passes(path: Path) -> None:
    status, told = checked(path)
    bad = [
        (each["rule"], each["subject"], each["because"])
        for each in told["findings"]
        if each["verdict"] not in ("pass", "note")
    ]
    assert bad == []
    assert status == 0
    assert told["verdict"] == "pass"
    assert told["counts"]["pass"] > 3 * len(told["conditions"])


@pytest.mark.parametrize("path", sorted(SYSTEMS.rglob("*.yaml")), ids=lambda path: path.stem)
def test_every_system_says_that_it_is_invented(path: Path) -> None:
    assert "nvented" in "".join(path.read_text(encoding="utf-8").splitlines()[:3])


# Failure cases ----------------------------------------------------------------------------------

SMALL = SYSTEMS / "small"


@pytest.mark.parametrize(
    ("path", "row"),
    [
        pytest.param(
            SMALL / "f01-strip-fuse-on-a-bank.yaml",
            # 13.6 V / (1.1 + 2 × 0.2 × 17.241 / 70) mΩ = 13.6 V / 1.1985 mΩ = 11 347 A
            {"rule": "interrupt-rating", "subject": "main fuse", "verdict": "fail",
             "severity": "fire", "found": "11.3 kA", "required": "2 kA"},
            id="F1 strip fuse on a lithium bank",
        ),
        pytest.param(
            SYSTEMS / "cabin-planted.yaml",
            {"rule": "dc-voltage-rating", "subject": "pump fuse", "verdict": "fail",
             "severity": "fire", "found": "57.6 V", "required": "32 V"},
            id="F2 32 V fuse on 48 V",
        ),
        pytest.param(
            SYSTEMS / "tender-planted.yaml",
            {"rule": "interrupt-rating", "subject": "port fuse", "verdict": "fail",
             "severity": "fire", "required": "5 kA"},
            id="F3 rating taken at the wrong voltage",
        ),
        pytest.param(
            SYSTEMS / "van-planted.yaml",
            {"rule": "source-protection", "subject": "dc-dc input cable", "verdict": "fail",
             "severity": "fire"},
            id="F5 charger lead bare at the start battery",
        ),
        pytest.param(
            SYSTEMS / "tender-planted.yaml",
            {"rule": "interrupt-rating", "subject": "winch breaker", "verdict": "fail",
             "severity": "fire", "required": "3 kA"},
            id="F6 winch breaker below the bus",
        ),
        pytest.param(
            SMALL / "f07-thin-negative.yaml",
            # 16 mm² at 30 °C: d = 5.100 mm, D = 7.1 mm, 0.2632 K·m/W, film 5.792; 25.37 W/m warm it
            # 6.68 + 68.32 = 75.0 K; 1.21 × 1.33399 = 1.6141 mΩ/m; √(25.37 / 0.0016141) = 125.4 A
            {"rule": "return-conductor", "subject": "inverter cable", "verdict": "fail",
             "severity": "fire", "found": "250 A", "required": "125.4 A"},
            id="F7 thin negative",
        ),
        pytest.param(
            SYSTEMS / "van-planted.yaml",
            {"rule": "device-load", "subject": "inverter fuse", "verdict": "fail",
             "severity": "outage", "found": "206.6 A", "required": "200 A"},
            id="F10 inverter above its fuse at low voltage",
        ),
        pytest.param(
            SMALL / "f15-third-battery.yaml",
            # 300 A × 2.0989 / 4.4289, as worked out in the file
            {"rule": "device-load", "subject": "fuse 1", "verdict": "fail",
             "severity": "outage", "found": "142.2 A", "required": "125 A"},
            id="F15 third battery, unequal sharing: its fuse",
        ),
        pytest.param(
            SMALL / "f15-third-battery.yaml",
            {"rule": "battery-discharge", "subject": "battery 1", "verdict": "fail",
             "severity": "outage", "found": "142.2 A", "required": "125 A"},
            id="F15 third battery, unequal sharing: the battery",
        ),
    ],
)  # fmt: skip
def test_failure_case(path: Path, row: Mapping[str, Any]) -> None:
    holds(path, row)


def test_f15_the_others_carry_less() -> None:
    path = SMALL / "f15-third-battery.yaml"
    for subject, current in (("fuse 2", "90.1 A"), ("fuse 3", "67.7 A")):
        holds(
            path,
            {"rule": "device-load", "subject": subject, "verdict": "pass", "found": current},
        )


# Traps ------------------------------------------------------------------------------------------

P1 = "small/p01-band-not-nominal.yaml"


def test_p1_nominal_figures_do_not_hide_the_band(tmp_path: Path) -> None:
    """The band fails at 13.6 V / 1.2 mΩ = 11.3 kA where 12.8 V / 1.4 mΩ = 9.14 kA would pass."""
    row = {"rule": "interrupt-rating", "subject": "main fuse", "required": "10 kA"}
    holds(SYSTEMS / P1, row | {"verdict": "fail", "found": "11.3 kA"})
    nominal = variant(
        tmp_path, P1,
        ("emf: {min: 12.4 V, max: 13.6 V}", "emf: {min: 12.4 V, max: 12.8 V}"),
        ("resistance: {min: 1.2 mΩ, max: 1.9 mΩ}", "resistance: {min: 1.4 mΩ, max: 1.9 mΩ}"),
    )  # fmt: skip
    holds(nominal, row | {"verdict": "pass", "found": "9.14 kA"})


P2 = "small/p02-rating-at-14-v.yaml"


def test_p2_a_rating_at_14_v_does_not_count_at_28_v() -> None:
    """27.2 V / 3.0 mΩ = 9.07 kA: within 10 kA at 14 V, above the 5 kA at 32 V."""
    row = {"rule": "interrupt-rating", "subject": "main fuse", "verdict": "fail"}
    holds(SYSTEMS / P2, row | {"severity": "fire", "found": "9.07 kA", "required": "5 kA"})


def test_p2_a_fuse_rated_below_the_voltage_has_no_rating(tmp_path: Path) -> None:
    """100 kA at 14 V is no rating at 28.8 V: the voltage is what fails."""
    rows_of_two = "[{voltage: 14 V, current: 10 kA}, {voltage: 32 V, current: 5 kA}]"
    path = variant(tmp_path, P2, (rows_of_two, "[{voltage: 14 V, current: 100 kA}]"))
    row = {"rule": "interrupt-rating", "subject": "main fuse", "verdict": "fail"}
    holds(path, row | {"found": "28.8 V", "required": "14 V"})


def test_p2_a_fuse_that_states_no_rating_proves_nothing(tmp_path: Path) -> None:
    rows_of_two = (
        "interrupt_ratings: [{voltage: 14 V, current: 10 kA}, {voltage: 32 V, current: 5 kA}],\n"
    )
    path = variant(tmp_path, P2, (rows_of_two, "\n"))
    holds(path, {"rule": "interrupt-rating", "subject": "main fuse", "verdict": "unproven"})


@pytest.mark.parametrize(
    ("subject", "verdict", "current"),
    [
        ("fuse on the bus", "fail", "10.7 kA"),
        ("fuse in the block", "fail", "1.99 kA"),
        ("fuse at the far end", "pass", "206 A"),
    ],
)
def test_p8_a_branch_fuse_is_judged_where_it_stands(
    subject: str, verdict: str, current: str
) -> None:
    """13.6 V over 1.2752, 6.8475 and 66.02 mΩ, as worked out in the file."""
    row = {"rule": "interrupt-rating", "subject": subject, "verdict": verdict}
    holds(SMALL / "p08-where-the-fuse-stands.yaml", row | {"found": current, "required": "1 kA"})


def test_p8_the_plotters_fuse_on_the_main_bus_fails(tmp_path: Path) -> None:
    """The same fuse that passes at the far end (217 A) meets 17.7 kA on the main bus."""
    path = variant(
        tmp_path, "tender-planted.yaml",
        ("""    from: module bus
    to: helm plotter
    place: wheelhouse
    parts:
      - {channel: demo-channel-10}
      - {cable: demo-cable-1.5, length: 5 m, name: plotter wire}
      - {fuse: demo-bl-3, name: plotter fuse}""",
         """    from: main bus
    to: helm plotter
    place: wheelhouse
    parts:
      - {fuse: demo-bl-3, name: plotter fuse}
      - {cable: demo-cable-1.5, length: 5 m, name: plotter wire}"""),
    )  # fmt: skip
    row = {"rule": "interrupt-rating", "subject": "plotter fuse"}
    holds(path, row | {"verdict": "fail", "found": "17.7 kA", "required": "1 kA"})
    holds(SYSTEMS / "tender-planted.yaml", row | {"verdict": "pass", "found": "217 A"})


def test_p10_the_starter_cable_is_a_note_not_a_fail() -> None:
    for system in ("tender-cured", "van-cured"):
        row = {"rule": "source-protection", "subject": "starter cable", "verdict": "note"}
        holds(SYSTEMS / f"{system}.yaml", row)


def test_p10_an_unfused_lead_to_anything_else_is_no_note(tmp_path: Path) -> None:
    """The custom covers starters only: the same bare cable to another load fails."""
    path = variant(tmp_path, "van-cured.yaml", ("cranking: yes, ", ""))
    holds(
        path,
        {"rule": "source-protection", "subject": "starter cable", "verdict": "fail",
         "severity": "fire"},
    )  # fmt: skip


@pytest.mark.parametrize(
    ("system", "subject"),
    [("van-cured", "solar cable"), ("cabin-cured", "solar east cable")],
)
def test_p10_a_self_limiting_charger_may_be_bare_at_its_end(system: str, subject: str) -> None:
    row = {"rule": "source-protection", "subject": subject, "verdict": "note"}
    holds(SYSTEMS / f"{system}.yaml", row)
