"""Codes for premises and vehicles, never for boats; and they ask where they cannot tell."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import pytest

from coordination.testing import findings_of
from coordination.testing.change import changed, dump_text, load_text

#: Pack to one of its systems, and a rule that passes there.
PACKS = {
    "iec_low_voltage": ("shed.yaml", "iec_low_voltage/device-fits-cable"),
    "us_premises": ("cabin.yaml", "us_premises/conductor-protection"),
}
every_pack = pytest.mark.parametrize("pack", PACKS)


def findings(pack: str, use: str | None) -> dict[str, str]:
    folder = Path(import_module(f"fusewright_{pack}").__path__[0]) / "cases" / "systems"
    tree = load_text((folder / PACKS[pack][0]).read_text("utf-8"))
    tree["packs"] = [pack]
    path = f"options.{pack}.use"
    tree = changed(tree, {path: use}, ()) if use else changed(tree, {}, (path,))
    answer = findings_of(dump_text(tree))
    assert answer.problems == ()
    return {finding.rule: finding.verdict for finding in answer.findings}


@every_pack
@pytest.mark.parametrize("use", ["premises", "vehicle"])
def test_judged_in_premises_and_vehicles(pack: str, use: str) -> None:
    found = findings(pack, use)
    assert found[PACKS[pack][1]] == "pass"
    assert f"{pack}/scope" not in found


@every_pack
def test_a_boat_is_noted_and_not_judged(pack: str) -> None:
    assert findings(pack, "boat") == {f"{pack}/scope": "note"}


@every_pack
def test_not_stated_is_unproven_and_not_judged(pack: str) -> None:
    assert findings(pack, None) == {f"{pack}/scope": "unproven"}
