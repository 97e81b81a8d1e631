"""The trade's failure cases and traps: small systems, the demo systems, and variants of them.

Expected numbers are hand calculations, in the comments of a small system or here.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

SYSTEMS = Path(__file__).parent.parent / "fixtures" / "systems"
SMALL = SYSTEMS / "small"

Checked = Callable[[Path], tuple[int, Mapping[str, Any]]]
Holds = Callable[[Path, Mapping[str, Any]], None]
Variant = Callable[..., Path]


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
def test_failure_case(path: Path, row: Mapping[str, Any], holds: Holds) -> None:
    holds(path, row)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("f01-strip-fuse-on-a-bank", {("interrupt-rating", "main fuse")}),
        (
            "f07-thin-negative",
            {
                ("return-conductor", "inverter cable"),
                ("overload-clears", "inverter cable"),
                ("cable-withstand", "inverter cable"),
            },
        ),
        (
            "f15-third-battery",
            {("device-load", "fuse 1"), ("battery-discharge", "battery 1")},
        ),
        ("p01-band-not-nominal", {("interrupt-rating", "main fuse")}),
        ("p02-rating-at-14-v", {("interrupt-rating", "main fuse")}),
        (
            "p08-where-the-fuse-stands",
            {("interrupt-rating", "fuse on the bus"), ("interrupt-rating", "fuse in the block")},
        ),
    ],
)
def test_small_system_has_its_own_fault_only(
    name: str, expected: set[tuple[str, str]], checked: Checked
) -> None:
    status, told = checked(SMALL / f"{name}.yaml")
    bad = {
        (each["rule"].partition("/")[2], each["subject"])
        for each in told["findings"]
        if each["verdict"] not in ("pass", "note")
    }
    assert bad == expected
    assert status == 1


def test_f15_the_others_carry_less(holds: Holds) -> None:
    path = SMALL / "f15-third-battery.yaml"
    for subject, current in (("fuse 2", "90.1 A"), ("fuse 3", "67.7 A")):
        holds(
            path,
            {"rule": "device-load", "subject": subject, "verdict": "pass", "found": current},
        )


P1 = "small/p01-band-not-nominal.yaml"


def test_p1_nominal_figures_do_not_hide_the_band(holds: Holds, variant: Variant) -> None:
    """The band fails at 13.6 V / 1.2 mΩ = 11.3 kA where 12.8 V / 1.4 mΩ = 9.14 kA would pass."""
    row = {"rule": "interrupt-rating", "subject": "main fuse", "required": "10 kA"}
    holds(SYSTEMS / P1, row | {"verdict": "fail", "found": "11.3 kA"})
    nominal = variant(P1,
        ("emf: {min: 12.4 V, max: 13.6 V}", "emf: {min: 12.4 V, max: 12.8 V}"),
        ("resistance: {min: 1.2 mΩ, max: 1.9 mΩ}", "resistance: {min: 1.4 mΩ, max: 1.9 mΩ}"),
    )  # fmt: skip
    holds(nominal, row | {"verdict": "pass", "found": "9.14 kA"})


P2 = "small/p02-rating-at-14-v.yaml"


def test_p2_a_rating_at_14_v_does_not_count_at_28_v(holds: Holds) -> None:
    """27.2 V / 3.0 mΩ = 9.07 kA: within 10 kA at 14 V, above the 5 kA at 32 V."""
    row = {"rule": "interrupt-rating", "subject": "main fuse", "verdict": "fail"}
    holds(SYSTEMS / P2, row | {"severity": "fire", "found": "9.07 kA", "required": "5 kA"})


def test_p2_a_fuse_rated_below_the_voltage_has_no_rating(holds: Holds, variant: Variant) -> None:
    """100 kA at 14 V is no rating at 28.8 V: the voltage is what fails."""
    rows_of_two = "[{voltage: 14 V, current: 10 kA}, {voltage: 32 V, current: 5 kA}]"
    path = variant(P2, (rows_of_two, "[{voltage: 14 V, current: 100 kA}]"))
    row = {"rule": "interrupt-rating", "subject": "main fuse", "verdict": "fail"}
    holds(path, row | {"found": "28.8 V", "required": "14 V"})


def test_p2_a_fuse_that_states_no_rating_proves_nothing(holds: Holds, variant: Variant) -> None:
    rows_of_two = (
        "interrupt_ratings: [{voltage: 14 V, current: 10 kA}, {voltage: 32 V, current: 5 kA}],\n"
    )
    path = variant(P2, (rows_of_two, "\n"))
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
    subject: str, verdict: str, current: str, holds: Holds
) -> None:
    """13.6 V over 1.2752, 6.8475 and 66.02 mΩ, as worked out in the file."""
    row = {"rule": "interrupt-rating", "subject": subject, "verdict": verdict}
    holds(SMALL / "p08-where-the-fuse-stands.yaml", row | {"found": current, "required": "1 kA"})


def test_p8_the_plotters_fuse_on_the_main_bus_fails(holds: Holds, variant: Variant) -> None:
    """The same fuse that passes at the far end (217 A) meets 17.7 kA on the main bus."""
    path = variant("tender-planted.yaml",
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


def test_p10_the_starter_cable_is_a_note_not_a_fail(holds: Holds) -> None:
    for system in ("tender-cured", "van-cured"):
        row = {"rule": "source-protection", "subject": "starter cable", "verdict": "note"}
        holds(SYSTEMS / f"{system}.yaml", row)


def test_p10_an_unfused_lead_to_anything_else_is_no_note(holds: Holds, variant: Variant) -> None:
    """The custom covers starters only: the same bare cable to another load fails."""
    path = variant("van-cured.yaml", ("cranking: yes, ", ""))
    holds(
        path,
        {"rule": "source-protection", "subject": "starter cable", "verdict": "fail",
         "severity": "fire"},
    )  # fmt: skip


@pytest.mark.parametrize(
    ("system", "subject"),
    [("van-cured", "solar cable"), ("cabin-cured", "solar east cable")],
)
def test_p10_a_self_limiting_charger_may_be_bare_at_its_end(
    system: str, subject: str, holds: Holds
) -> None:
    row = {"rule": "source-protection", "subject": subject, "verdict": "note"}
    holds(SYSTEMS / f"{system}.yaml", row)
