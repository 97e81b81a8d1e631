"""What is hard to believe of a part: each doubt names the published number and its source."""

from __future__ import annotations

import pytest

from catalogue.building import build
from catalogue.cells import from_cells
from catalogue.doubts import doubts_of


def part(kind, part_id="x", **cells):
    named = {name.replace("__", "."): text for name, text in cells.items()}
    stated, found = from_cells(kind, named)
    made, more = build(part_id, kind, stated)
    assert (found, more) == ([], ())
    return made


def test_no_generic_part_is_doubted(every):
    assert [str(doubt) for each in every for doubt in doubts_of(each)] == []


#: What somebody types, and what the doubt says: the published number, and whose it is.
SLIPS = {
    # UL 248-1, 201 to 400 A: opens within 600 s at 200 %, so 900 s at 600 A is too slow.
    "a class T that melts too slowly": (
        "fuse",
        {"family": "class-t", "rated_current": "300 A", "curve__min_melt": "600 A for 900 s"},
        ["900 s at 600 A is slower", "at most 600 s at 600 A", "UL 248-1 Table 4 test 3"],
    ),
    # On the log-log line 10000 s × (405/400)^(log 0.01 / log 2) = 9208 s; 7200 s are allowed.
    "a class T that melts too slowly between its points": (
        "fuse",
        {
            "family": "class t", "rated_current": "300 A",
            "curve__average_melt": "400 A for 10000 s; 800 A for 100 s", "curve__tolerance": "5 %",
        },
        ["2.56 h at 405 A is slower", "at most 2.00 h at 405 A", "UL 248-1 Table 4 test 1"],
    ),
    # IEC 60269-1 Table 3, 100 A: melts within 5 s at 580 A.
    "a gG that is too slow": (
        "fuse",
        {"family": "gG", "rated_current": "100 A", "curve__min_melt": "600 A for 8 s"},
        ["8.00 s at 600 A is slower", "at most 5.00 s at 580 A", "IEC 60269-1 Table 3"],
    ),
    # The same: does not melt within 10 s at 290 A.
    "a gG that is too quick": (
        "fuse",
        {"family": "gG", "rated_current": "100 A", "curve__max_clear": "280 A for 3 s"},
        ["3.00 s at 280 A is sooner", "at least 10.0 s at 290 A", "IEC 60269-1 Table 3"],
    ),
    # ISO 8820-3: types C and F open within 600 s at 135 %, E within 1800 s: the widest counts.
    "a blade that is too slow for any type": (
        "fuse",
        {"family": "blade", "rated_current": "20 A", "curve__max_clear": "27 A for 1 h"},
        ["at 27.0 A is slower", "at most 30.0 min at 27.0 A", "ISO 8820-3"],
    ),
    # Band C holds 5 × In for 0.1 s at least (IEC 60898-1): 80 A with 16 A.
    "a breaker of band C that trips like band B": (
        "breaker",
        {
            "family": "breaker, band C", "rated_current": "16 A",
            "curve__max_trip": "60 A for 0.02 s",
        },
        ["is sooner", "at least 100 ms at 80.0 A", "IEC 60898"],
    ),
    "an interrupt rating that rises": (
        "fuse",
        {"family": "class-t", "interrupt_ratings": "10 kA @ 32 V; 20 kA @ 125 V"},
        ["20.0 kA at 125 V is more than 10.0 kA at 32.0 V", "at most 10.0 kA at 125 V"],
    ),
    # ISO 8820-5: strip fuses break 2000 A at least.
    "kA typed as A": (
        "fuse",
        {"family": "strip", "interrupt_ratings": "2 A @ 32 V"},
        ["2.00 A at 32.0 V", "2.00 kA or more", "ISO 8820-5:2015"],
    ),
    "a blade that breaks ten times too much": (
        "fuse",
        {"family": "blade", "interrupt_ratings": "10 kA @ 32 V"},
        ["10.0 kA at 32.0 V", "about 1.00 kA", "ISO 8820-3:2015"],
    ),
    # UL 248: no class breaks more than 300 kA.
    "A typed as kA": (
        "fuse",
        {"interrupt_ratings": "20000 kA @ 125 V"},
        ["at most 300 kA", "UL 248-1:2017"],
    ),
    "a rating above its rated voltage": (
        "breaker",
        {"rated_voltage": "32 V", "interrupt_ratings": "5 kA @ 60 V"},
        ["it breaks at 60.0 V, above its rated voltage", "at most 32.0 V"],
    ),
    # ASTM B258: 0.46 in, 211600 cmil: 107.2 mm².
    "a 4/0 cable of 50 mm²": (
        "cable",
        {"description": "4/0 AWG battery cable", "area": "50 mm²"},
        ["50.0 mm², where its name says 4/0 AWG", "107 mm²", "ASTM B258"],
    ),
    # 17.241 Ω·mm²/km over 50 mm² = 0.345 Ω/km.
    "a cable in ohms per metre for ohms per kilometre": (
        "cable",
        {"area": "50 mm²", "resistance_20c": "0.386 Ω/m"},
        ["386 Ω/km with 50.0 mm²", "345 mΩ/km to 431 mΩ/km", "0.017241"],
    ),
    # 105 °F are 40.6 °C.
    "Fahrenheit typed as Celsius": (
        "cable", {"insulation_temperature": "40.6 °C"}, ["40.6 °C", "degrees Fahrenheit?"],
    ),
    # IEC 60269-2: 32 W at 250 A are 0.128 V; at 300 A that is 427 µΩ.
    "mΩ typed as Ω": (
        "fuse",
        {"rated_current": "300 A", "resistance": "0.24 Ω"},
        ["240 mΩ drops 72.0 V at 300 A", "about 427 µΩ or less", "IEC 60269-2"],
    ),
    "µΩ typed where mΩ is meant": (
        "disconnect", {"resistance": "0.2 µΩ"}, ["0.200 µΩ", "5.00 µΩ or more"],
    ),
    # 8 cells × (20 to 150) mΩ·Ah / 230 Ah = 0.696 to 5.22 mΩ.
    "a battery of 3.2 Ω": (
        "battery",
        {"chemistry": "lfp", "cells": "8", "capacity": "230 Ah", "resistance": "3.2 Ω to 3.3 Ω"},
        ["3.20 Ω to 3.30 Ω with 230 Ah", "696 µΩ to 5.22 mΩ"],
    ),
    # 8 cells of 3.4 to 3.7 V.
    "a charge voltage of half the bank": (
        "battery",
        {"chemistry": "lfp", "cells": "8", "charge_voltage": "14.6 V"},
        ["14.6 V with 8 cells of lfp", "27.2 V to 29.6 V"],
    ),
    "ampere-seconds for ampere-hours": (
        "battery", {"capacity": "230 A·s"}, ["63.9 mAh", "1.00 Ah to 5000 Ah"],
    ),
    # 27.2 V / 3 mΩ = 9.07 kA at most, 25.6 V / 5 mΩ = 5.12 kA at least.
    "a declared short-circuit current in the wrong prefix": (
        "battery",
        {"emf": "25.6 V to 27.2 V", "resistance": "3 mΩ to 5 mΩ", "short_circuit_current": "8 A"},
        ["8.00 A", "5.12 kA to 9.07 kA"],
    ),
    "kV typed for V": (
        "fuse", {"rated_voltage": "32 kV"}, ["32.0 kV", "6.00 V to 1.50 kV", "IEC 60269-1"],
    ),
    # UL 248-15: class T goes up to 1200 A.
    "a class T of 3000 A": (
        "fuse",
        {"family": "class-t", "rated_current": "3000 A"},
        ["3.00 kA", "1.00 A to 1.20 kA", "UL 248-15"],
    ),
    "a rating a tenth of what the description says": (
        "fuse",
        {"description": "300 A class T fuse", "rated_current": "30 A"},
        ["30.0 A, where its description says 300 A"],
    ),
    # DIN 43671: 30 × 5 mm carries 379 A.
    "a bar ten times too strong": (
        "busbar",
        {"width": "30 mm", "thickness": "5 mm", "rated_current": "3790 A"},
        ["3.79 kA with 150 mm²", "about 379 A", "DIN 43671"],
    ),
    "a melting energy above the clearing one": (
        "fuse", {"melting_i2t": "9000 A²s", "clearing_i2t": "4000 A²s"},
        ["is above clearing_i2t", "it melts before it has cleared"],
    ),
    # IEC 60269-2: a 100 A gG lets 64000 A²s through while it operates.
    "an energy in kA²s": (
        "fuse", {"family": "gG", "rated_current": "100 A", "clearing_i2t": "64e6 A²s"},
        ["64.0 ×10⁶ A²s", "64.0 ×10³ A²s", "IEC 60269-2"],
    ),
    "a short-time current below the rated one": (
        "disconnect",
        {"rated_current": "300 A", "withstand": "3.6 A for 1 s"},
        ["3.60 A is less than its rated current", "3.60 kA for 1 s", "IEC 60947-3"],
    ),
    "a channel that trips before its rating": (
        "channel", {"rated_current": "10 A", "trip_current": "1.2 A"}, ["10.0 A to 200 A"],
    ),
    "a jacket thinner than its copper": (
        "cable", {"area": "50 mm²", "outside_diameter": "1.2 mm"}, ["1.20 mm over 50.0 mm²"],
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", SLIPS)
def test_a_slip_is_doubted_with_the_number_expected(name):
    kind, cells, words = SLIPS[name]
    found = [str(doubt) for doubt in doubts_of(part(kind, **cells))]
    assert any(all(word in line for word in words) for line in found), found


@pytest.mark.parametrize(
    ("kind", "cells"),
    [
        # Right figures beside the wrong ones above.
        ("fuse", {"family": "class-t", "rated_current": "300 A", "resistance": "0.24 mΩ",
                  "interrupt_ratings": "20 kA @ 125 V", "rated_voltage": "125 V",
                  "curve__min_melt": "600 A for 100 s; 3 kA for 0.05 s"}),
        ("cable", {"description": "4/0 AWG cable", "awg": "4/0", "resistance_20c": "0.1608 Ω/km",
                   "insulation_temperature": "105 °C", "outside_diameter": "18.8 mm"}),
        ("cable", {"description": "50 mm² cable", "area": "50 mm²",
                   "resistance_20c": "0.386 Ω/km"}),
        ("battery", {"chemistry": "lfp", "nominal_voltage": "25.6 V", "capacity": "230 Ah",
                     "emf": "25.6 V to 27.2 V", "resistance": "3.2 mΩ", "charge_voltage": "28.8 V",
                     "short_circuit_current": "8 kA"}),
        ("disconnect", {"rated_current": "300 A", "resistance": "0.25 mΩ", "voltage": "48 V",
                        "intermittent": "500 A for 5 min", "withstand": "3600 A for 1 s"}),
        ("busbar", {"width": "30 mm", "thickness": "5 mm", "rated_current": "379 A"}),
    ],
)  # fmt: skip
def test_an_ordinary_part_is_not_doubted(kind, cells):
    assert [str(doubt) for doubt in doubts_of(part(kind, **cells))] == []
