"""Generic cables of wire-gauge and metric sizes, and flat copper bars."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal
from math import log, sqrt
from typing import Any, Final

from catalogue.generic.tables import Draft, Row, notes, provenance, rows, with_unit
from catalogue.quantities import awg_area

#: Resistivity of annealed copper at 20 °C [Ω·mm²/m], read.
_COPPER: Final = 0.017241
#: Largest resistance over nominal where no standard has a row for the stranding.
_WITHOUT_A_ROW: Final = 1.04
#: Heat capacity of copper [J/(K·mm³)] and inverse of its temperature coefficient at 0 °C [K], read.
_HEAT: Final = 3.45e-3
_BETA: Final = 234.5


def conductors() -> Iterator[Draft]:
    """Every generic cable and bar."""
    for insulation in rows("insulations"):
        make = _awg if insulation["system"] == "awg" else _metric
        yield from make(insulation, tinned=False)
        if insulation["tinned_too"] == "yes":
            yield from make(insulation, tinned=True)
    yield from _bars()


def _awg(insulation: Row, *, tinned: bool) -> Iterator[Draft]:
    for row in rows("awg_sizes"):
        size, suffix = row["awg"], "-tinned" if tinned else ""
        least = _COPPER / (awg_area(size) * 1e6) * 1000
        largest = float(row["coated_max_ohm_per_km_20C"]) if tinned else _WITHOUT_A_ROW * least
        stated = {
            **_cable(insulation, f"{size} AWG", tinned),
            "awg": size,
            "stranding": "class k tinned" if tinned else "class k",
            "resistance_20c": _resistance(least, largest),
            **_cable_source(insulation, "ASTM B258; ASTM B172", "sizes; class K strands"),
            "notes": notes(
                "least resistance: nominal area and 0.017241 Ω·mm²/m",
                row["source"] if tinned else "largest: 1.04 times that; tinned wire has more",
                insulation["source"],
            ),
        }
        name = f"cable-{size}-awg-{insulation['temperature_C']}c{suffix}"
        yield Draft(name, "cable", stated)


def _metric(insulation: Row, *, tinned: bool) -> Iterator[Draft]:
    for row in rows("metric_sizes"):
        size, suffix = row["size_mm2"], "-tinned" if tinned else ""
        column = f"class5_{'tinned' if tinned else 'plain'}_ohm_per_km"
        least = _COPPER / float(size) * 1000
        stated = {
            **_cable(insulation, f"{size} mm²", tinned),
            "area": f"{size} mm²",
            "stranding": "class 5 tinned" if tinned else "class 5",
            "resistance_20c": _resistance(least, float(row[column])),
            **_cable_source(insulation, "IEC 60228:2004", "Table 3"),
            "notes": notes(
                "least resistance: nominal area and 0.017241 Ω·mm²/m",
                f"largest: {row['source']}",
                insulation["source"],
            ),
        }
        name = f"cable-{size}mm2-{insulation['temperature_C']}c{suffix}"
        yield Draft(name, "cable", stated)


def _cable(insulation: Row, size: str, tinned: bool) -> dict[str, Any]:
    celsius = with_unit(insulation["temperature_C"], "°C")
    strands = "tinned copper" if tinned else "copper"
    stated = {
        "description": f"{size} {strands} cable, {celsius} insulation",
        "material": "copper",
        "insulation_temperature": celsius,
    }
    if insulation["voltage_V"]:
        stated["voltage"] = with_unit(insulation["voltage_V"], "V")
    return stated


def _cable_source(insulation: Row, document: str, page: str) -> dict[str, str]:
    """Sizes are from memory, so every generic cable is a draft."""
    return provenance(document, page, ["from memory", insulation["source"]])


def _resistance(least: float, largest: float) -> dict[str, str]:
    """Bounds [Ω/km] to four digits, rounded outwards; a printed limit stays as printed."""
    return {
        "min": f"{_rounded(least, ROUND_FLOOR)} Ω/km",
        "max": f"{_rounded(largest, ROUND_CEILING)} Ω/km",
    }


def _rounded(value: float, way: str) -> str:
    exact = Decimal(repr(round(value, 12)))
    return f"{exact.quantize(Decimal(1).scaleb(exact.adjusted() - 3), rounding=way).normalize():f}"


def _bars() -> Iterator[Draft]:
    """DIN 43671 bars, bare: rated for 35 °C air and a bar of 65 °C."""
    for row in rows("bars"):
        area = float(row["width_mm"]) * float(row["thickness_mm"])
        stated = {
            "description": f"{row['width_mm']} × {row['thickness_mm']} mm bare copper bar",
            "rated_current": with_unit(row["bare_A"], "A"),
            "material": "copper",
            "width": with_unit(row["width_mm"], "mm"),
            "thickness": with_unit(row["thickness_mm"], "mm"),
            "short_time": {"current": f"{_one_second(area):.0f} A", "time": "1 s"},
            **provenance("DIN 43671", "copper bars, bare, one bar", [row["source"]]),
            "notes": notes(
                row["source"],
                "short-time current computed: adiabatic, 65 to 200 °C (IEC 60865-1 limit)",
                "the voltage is that of its supports and cover, which a bare bar does not have",
            ),
        }
        yield Draft(f"bar-{row['width_mm']}x{row['thickness_mm']}", "busbar", stated)


def _one_second(area: float) -> float:
    """Current [A] that heats bare copper of `area` [mm²] from 65 to 200 °C in one second.

    k S with k = √(Qc (β+20)/ρ20 · ln((β+200)/(β+65))). Source: IEC 60364-5-54, read.
    """
    k = sqrt(_HEAT * (_BETA + 20) / (_COPPER * 1e-3) * log((_BETA + 200) / (_BETA + 65)))
    return k * area
