"""One fault at a time put into a mended system: what it breaks shows, and nothing else does."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import pytest

Checked = Callable[[Path], tuple[int, Mapping[str, Any]]]
Variant = Callable[..., Path]

TENDER, VAN, CABIN = "tender-cured.yaml", "van-cured.yaml", "cabin-cured.yaml"

START_FUSE = "      - {fuse: demo-sb-80, name: dc-dc start fuse, distance: 120 mm}"

FAULTS = {
    "no fuse at the start battery": (
        TENDER,
        [("      - {fuse: demo-t-60, name: dc-dc start fuse, distance: 120 mm}", "")],
        {
            ("source-protection", "dc-dc input cable", "fail"),
            ("cable-overload", "dc-dc input cable", "fail"),
            ("return-conductor", "dc-dc input cable", "unproven"),
        },
    ),
    # 16 mm² at 35 °C bears 120 A, less than the 151.5 A load and the 200 A fuse; with that load it
    # is at 35 + 70 (151.5 / 120)² = 146 °C, and may become 150 °C in a fault
    "thin return": (
        TENDER,
        [
            (
                "{cable: demo-cable-95, length: 1.2 m, name: inverter cable}",
                "{cable: demo-cable-95, length: 1.2 m, name: inverter cable, "
                "return: {cable: demo-cable-16, length: 1.2 m}}",
            )
        ],
        {
            ("return-conductor", "inverter cable", "fail"),
            ("overload-clears", "inverter cable", "fail"),
            ("cable-withstand", "inverter cable", "fail"),
        },
    ),
    "output without a fuse": (
        TENDER,
        [
            (
                "      - {fuse: demo-ct-10}\n      - {channel: demo-channel-10}\n"
                "      - {cable: demo-cable-1.5, length: 5 m, name: radar wire}",
                "      - {channel: demo-channel-10}\n"
                "      - {cable: demo-cable-1.5, length: 5 m, name: radar wire}",
            )
        ],
        {
            ("cable-overload", "radar wire", "fail"),
            ("return-conductor", "radar wire", "fail"),
            ("overload-clears", "radar wire", "fail"),
            ("cable-withstand", "radar wire", "fail"),
            ("fault-clears", "module fuse", "fail"),
        },
    ),
    # 151.5 + 35 + 12 + 22 = 220.5 A: above the contactor's 200 A, within the fuse's 225 A
    "inverter not shed with one pack out": (
        TENDER,
        [("{inverter: 0 %, crane winch: 0 %}}   # inverter shed", "{crane winch: 0 %}}")],
        {("disconnect-rating", "starboard contactor", "fail")},
    ),
    # 151.5 + 110 + 35 + 12 + 22 = 330.5 A from two packs: 165.3 A each, within everything
    "everything at once": (
        TENDER,
        [("draw: {inverter: 30 %}", "draw: {inverter: 100 %}")],
        set(),
    ),
    "inverter fuse too small": (
        VAN,
        [("fuse: demo-t-300, name: inverter fuse", "fuse: demo-t-200, name: inverter fuse")],
        {("device-load", "inverter fuse", "fail")},
    ),
    # the house fuse of 200 A is left: a device, but 6 mm² bears 67 A; and with 2 × 3 m × 3.39 mΩ/m
    # × 1.334 = 27.1 mΩ and some 3 mΩ before it, 12.4 V drive 410 A, twice its rating: 20 s
    "no fuse for the solar cable": (
        VAN,
        [("      - {fuse: demo-t-40, name: solar fuse, place: under seat}\n", "")],
        {
            ("cable-overload", "solar cable", "fail"),
            ("return-conductor", "solar cable", "fail"),
            ("overload-clears", "solar cable", "fail"),
            ("cable-withstand", "solar cable", "fail"),
            ("fault-clears", "house fuse", "fail"),
        },
    ),
    "return through the chassis": (
        VAN,
        [("return: {cable: demo-cable-16, length: 5.5 m}", "return: {resistance: 1.5 mΩ}")],
        {
            ("return-conductor", "dc-dc input cable", "unproven"),
            ("cable-withstand", "dc-dc input cable", "unproven"),
        },
    ),
    "fuse a foot from the battery, sheath not stated": (
        VAN,
        [(START_FUSE, START_FUSE.replace("120 mm", "300 mm"))],
        {("source-protection", "dc-dc input cable", "unproven")},
    ),
    "fuse a foot from the battery, bare": (
        VAN,
        [(START_FUSE, START_FUSE.replace("120 mm", "300 mm, sheathed: no"))],
        {("source-protection", "dc-dc input cable", "fail")},
    ),
    "fuse a foot from the battery, sheathed": (
        VAN,
        [(START_FUSE, START_FUSE.replace("120 mm", "300 mm, sheathed: yes"))],
        set(),
    ),
    # 10 mm² at 25 °C bears 97.5 A behind 125 A; hotter and longer it also tilts the sharing: with
    # two racks out the other bears 185 A × 17.50 / (14.17 + 17.50) mΩ = 102.2 A of its 100 A
    "one thin rack lead": (
        CABIN,
        [
            (
                "{cable: demo-cable-35, length: 1.2 m, name: rack 3 cable}",
                "{cable: demo-cable-10, length: 1.0 m, name: rack 3 cable}",
            )
        ],
        {
            ("cable-overload", "rack 3 cable", "fail"),
            ("return-conductor", "rack 3 cable", "fail"),
            ("overload-clears", "rack 3 cable", "fail"),
            ("cable-withstand", "rack 3 cable", "fail"),
            ("battery-discharge", "rack 1", "fail"),
        },
    ),
    # bars and disconnect are made for 60 V
    "charged above the parts' voltage": (
        CABIN,
        [("charge_voltage: 57.6 V", "charge_voltage: 65 V")],
        {
            ("dc-voltage-rating", "rack bar", "fail"),
            ("dc-voltage-rating", "load bar", "fail"),
            ("dc-voltage-rating", "house disconnect", "fail"),
            ("dc-voltage-rating", "inverter disconnect", "fail"),
        },
    ),
}


@pytest.mark.parametrize("fault", FAULTS)
def test_single_fault(fault: str, checked: Checked, variant: Variant) -> None:
    system, changes, expected = FAULTS[fault]
    _, told = checked(variant(system, *changes))
    shown = {
        (each["rule"].partition("/")[2], each["subject"], each["verdict"])
        for each in told["findings"]
        if each["verdict"] not in ("pass", "note", "waived")
    }
    assert shown == expected
