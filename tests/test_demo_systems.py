"""The demo systems: as drawn each shows its planted faults and no others, as mended each passes.

Expected numbers are hand calculations: in the `.expected.yaml` beside a system.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest
import yaml

import coordination

ROOT = Path(__file__).parent.parent
SYSTEMS = ROOT / "fixtures" / "systems"
STARTER = Path(coordination.__file__).with_name("starter.yaml")

PLANTED = ("tender-planted", "van-planted", "cabin-planted")
CURED = ("tender-cured", "van-cured", "cabin-cured")

Checked = Callable[[Path], tuple[int, Mapping[str, Any]]]
Holds = Callable[[Path, Mapping[str, Any]], None]


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
def test_expected_finding_is_there(system: str, row: Mapping[str, Any], holds: Holds) -> None:
    holds(SYSTEMS / f"{system}.yaml", row)


@pytest.mark.parametrize("system", PLANTED)
def test_nothing_fails_or_stays_open_that_is_not_expected(system: str, checked: Checked) -> None:
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
def test_mended_system_passes(path: Path, checked: Checked) -> None:
    status, told = checked(path)
    bad = [
        (each["rule"], each["subject"], each["because"])
        for each in told["findings"]
        if each["verdict"] not in ("pass", "note", "waived")
    ]
    assert bad == []
    assert status == 0
    assert told["verdict"] == "pass"
    assert told["counts"]["pass"] > 3 * len(told["conditions"])


@pytest.mark.parametrize("path", sorted(SYSTEMS.rglob("*.yaml")), ids=lambda path: path.stem)
def test_every_system_says_that_it_is_invented(path: Path) -> None:
    assert "nvented" in "".join(path.read_text(encoding="utf-8").splitlines()[:3])
