"""What is not stated is never better than what is: no field taken out improves a verdict."""

from __future__ import annotations

from importlib import import_module
from pathlib import Path

import pytest

from coordination.testing import improvements
from coordination.testing.change import changed, load_text
from coordination.testing.unstated import judged

#: Option values with which the premises' rules pass.
PREMISES = {
    "use": "premises",
    "continuous_loads": "yes",
    "devices_at_batteries": "yes",
    "label_current": "7 kA",
    "label_voltage": "64 V",
    "label_date": "2026-03-02",
}
#: What to state in a pack's systems so that its rules pass.
SYSTEMS = {
    ("budget", "three.yaml"): {},
    ("budget", "start_side.yaml"): {
        "parts.start.charge_current": "85 A",
        "sources.alternator.continuous": "80 A",
        "conditions.emergency": {"close": ["link switch"], "without": ["alternator", "dc-dc"]},
        "link/2.joint": "200 mΩ",
    },
    ("iec_low_voltage", "shed.yaml"): {
        "options.iec_low_voltage.insulation": "thermoplastic",
        "options.iec_low_voltage.basic_protection": "yes",
        "feed/1.sheathed": "yes",
    },
    ("iec_low_voltage", "two_feeds.yaml"): {
        "parts.fuse-63.clearing_i2t": "1000 A²s",
        "feed one/1.sheathed": "yes",
    },
    ("us_premises", "cabin.yaml"): {
        "options.us_premises": PREMISES,
        "parts.bank-51.nominal_voltage": "64 V",
    },
    ("us_premises", "van.yaml"): {"options.us_premises.devices_at_batteries": "yes"},
    ("us_premises", "two_feeds.yaml"): {"options.us_premises.devices_at_batteries": "yes"},
}


@pytest.mark.parametrize(("pack", "file"), SYSTEMS)
def test_no_field_taken_out_improves_a_verdict(pack: str, file: str) -> None:
    folder = Path(import_module(f"fusewright_{pack}").__path__[0]) / "cases" / "systems"
    tree = changed(load_text((folder / file).read_text("utf-8")), SYSTEMS[pack, file], ())
    tree["packs"] = [pack]
    assert sum(finding.verdict == "pass" for finding in judged(tree).values()) >= 5
    tried = list(improvements(tree))
    assert len(tried) >= 10
    assert [each for each in tried if each] == []
