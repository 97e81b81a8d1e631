"""What our physics gives for the rows of the published tables.

A check's bounds are the deviations that a reader of the page is promised; where they are wide, its
remark says why. The tests of the physics hold each row to a tighter, reasoned one.
"""

from __future__ import annotations

from math import log, sqrt

from coordination.physics import adiabatic, ampacity, batteries, bundling, fusing, loads
from coordination.physics import busbars as bars
from coordination.physics import conductors as wire
from coordination.physics import inductance as loop
from coordination.physics import temperature as heat
from tests.checked.comparison import Check, Row, named

#: One circular mil [m²], as ASTM B258 defines it; a thousand feet [m].
CMIL, KILOFEET = 5.067075e-10, 304.8


def _size(row: Row) -> float:
    """Nominal area [m²] of the column `size`: a gauge, or kcmil from 250 up."""
    size = row["size"]
    if size.isdigit() and int(size) >= 250:
        return float(size) * 1000 * CMIL
    return wire.awg_area(wire.awg_number(size))


def _square(row: Row) -> float:
    return float(row["size_mm2"]) * 1e-6


def _pair(area: float, resistance: float, row: Row) -> float:
    across = wire.outside_diameter(area)
    return ampacity.pair_ampacity(area, resistance, float(row["insulation_c"]), across, 30.0)


def _pair_of_nominal(area: float, row: Row) -> float:
    return _pair(area, wire.nominal_resistance_limit(area), row)


def _gauge(row: Row) -> int:
    return wire.awg_number(row["awg"])


def _inductance(row: Row) -> float:
    radius = loop.conductor_radius(_square(row))
    return loop.inductance_per_length(float(row["centre_distance_mm"]) * 1e-3, radius) * 1e6


def _upright_bar(row: Row) -> float | None:
    width, thickness = float(row["width_mm"]) * 1e-3, float(row["thickness_mm"]) * 1e-3
    if row["case"] == "dc":
        return bars.empirical_current(width, thickness)
    hot = 40.0 + float(row["rise_k"])
    area = bars.bar_area(width, thickness)
    return sqrt(
        bars.bar_heat(width, thickness, 40.0, hot, 0.4)
        / (1.04 * bars.bar_resistance(area, 1.0, hot))
    )


def _bank(row: Row) -> float:
    one = batteries.cell_bank_resistance(0.25e-3, 8, 1, 1.2e-3)
    two = [27.2, 27.2], [one, one]
    in_series = batteries.series_emf(two[0]), batteries.series_sum(two[1])
    return {
        "8 cells 0.25 mohm, links 1.2 mohm": one * 1e3,
        "one pack 27.2 V, 3.2 mohm": batteries.short_circuit_current(27.2, one),
        "two such packs in parallel": batteries.parallel_current(*two),
        "two such packs in series": batteries.short_circuit_current(*in_series),
        "4 cells 0.2 mohm, links 0.4 mohm": batteries.cell_bank_resistance(0.2e-3, 4, 1, 0.4e-3)
        * 1e3,
    }[row["case"]]


def _constant(row: Row) -> float:
    icea = adiabatic.icea_limit(1e-6, 90.0, 250.0)
    return {
        "IEC 60949 K": sqrt(adiabatic.COPPER_CONSTANT) / 1e6,
        "ICEA equivalent K": sqrt(icea / log((250 + 234) / (90 + 234))),
        "Onderdonk equivalent K from 25 °C": fusing.onderdonk_current(1e-6, 1.0, 25.0),
    }[row["form"]]


def _drop(row: Row) -> float | None:
    eleven = 11.0 * CMIL / 0.3048
    each = 1.02e-3 * 100.0
    found = {
        "drop-12": loads.voltage_drop(1.6, 0.0164e-6 * 22.0 / 1.5e-6),
        "drop-13": loads.voltage_drop(10.0, wire.loop_resistance(each, each)),
        "drop-14": loads.voltage_drop(10.0, eleven * 200.0 * 0.3048 / (10400 * CMIL)),
    }
    return found.get(row["case"])


def _hot(row: Row) -> float:
    cold = wire.resistance_per_length(float(row["area_cmil"]) * CMIL)
    return wire.resistance_at_temperature(cold, 75.0) * KILOFEET


CHECKS = (
    Check("awg_geometry", "American wire gauge: diameter", "diameter_in", "in", named("awg"),
          lambda row: wire.awg_diameter(_gauge(row)) / 0.0254, -0.0006, 0.0006,
          "The table cuts digits off."),
    Check("awg_geometry", "American wire gauge: area", "area_cmil", "cmil", named("awg"),
          lambda row: wire.awg_area(_gauge(row)) / CMIL, -0.0003, 0.0003,
          "Printed areas are squares of printed diameters."),
    Check("awg_geometry", "American wire gauge: resistance at 20 °C",
          "resistance_20c_ohm_per_kft", "Ω/kft", named("awg"),
          lambda row: wire.resistance_per_length(wire.awg_area(_gauge(row))) * KILOFEET,
          -0.001, 0.001, "Printed to three digits at most."),
    Check("iec60228_limits", "Largest resistance of a conductor class", "limit_ohm_per_km", "Ω/km",
          named("stranding", "size_mm2"),
          lambda row: wire.maximum_resistance_per_length(_square(row), row["stranding"]) * 1e3,
          -1e-9, 1e-9, "A table that the engine holds: equal by intent."),
    Check("copper_temperature", "Copper's temperature law (exact)", "to_20c_exact_from_memory", "",
          named("temperature_c"),
          lambda row: 1 / wire.temperature_factor(float(row["temperature_c"])), -1e-4, 1e-4,
          "The factors of the standard's own short law are below.", recalled=True),
    Check("copper_temperature", "Copper's temperature law (simplified, as read)",
          "to_20c_simplified_read", "", named("temperature_c"),
          lambda row: 1 / wire.temperature_factor(float(row["temperature_c"])), -0.002, 0.0045,
          "The standard's rounded law 250 / (230 + T) is not ours."),
    Check("nec_chapter9_resistance", "Copper conductors at 75 °C", "uncoated_75c_ohm_per_kft",
          "Ω/kft", named("size", "build"), _hot, -0.025, 0.005,
          "Ours is the metal alone; strands are longer by some 2 %, which the largest resistance "
          "of 1.04 times nominal covers."),
    Check("inductance_two_wire", "Inductance of two round wires", "inductance_uh_per_m", "µH/m",
          named("size_mm2", "centre_distance_mm"), _inductance, -0.005, 0.003,
          "The distance is printed to a tenth of a millimetre."),
    Check("k_factors", "Adiabatic factor k of copper", "k", "A√s/mm²",
          named("insulation", "initial_c", "final_c"),
          lambda row: adiabatic.k_factor(float(row["initial_c"]), float(row["final_c"])) / 1e6,
          -0.007, 0.007, "Tables round k to whole numbers."),
    Check("withstand_energy", "Let-through energy that a cable bears", "limit_million_a2s",
          "10⁶ A²s", named("insulation", "size_mm2"),
          lambda row: adiabatic.adiabatic_limit(_square(row), float(row["k"]) * 1e6) / 1e6,
          -1e-3, 0.002, "Some printed figures are cut, not rounded."),
    Check("short_circuit_constants", "Constants of the short-circuit equations", "constant",
          "A√s/mm²", named("metal", "form"), _constant, -0.002, 0.002,
          "IEC 60949 rounds its own constant up."),
    Check("preece_fusing", "Fusing current of copper wire (Preece)", "current_a", "A",
          named("diameter_in"),
          lambda row: fusing.preece_current(float(row["diameter_in"]) * 0.0254), -0.016, 0.016,
          "The printed diameter is rounded, and the current goes with its power 1.5."),
    Check("ambient_factors", "Factor of an air temperature", "factor", "",
          named("table", "insulation_c", "ambient_c"),
          lambda row: heat.ambient_factor(
              float(row["insulation_c"]), float(row["ambient_c"]), float(row["reference_c"])
          ), -0.061, 0.011,
          "Printed to 0.01. 33 CFR prints 1.00 for 200 °C insulation in an engine space, where the "
          "law gives 0.94: the stricter stands."),
    Check("iec_grouping", "Factor of grouped circuits", "factor", "", named("circuits"),
          lambda row: bundling.bundle_factor(float(row["circuits"])), -0.04, 1e-9,
          "Ours is a formula that never exceeds the printed row."),
    Check("iec_method_f", "Ampacity in free air, IEC method F", "ampacity_a", "A",
          named("insulation_c", "size_mm2"),
          lambda row: _pair(
              _square(row), wire.maximum_resistance_per_length(_square(row), "class 5"), row
          ), -0.107, 0.04,
          "Two touching single cores of class 5 by our heat balance. Sizes where it is above the "
          "printed figure bear both figures in the table; a code's pack brings its own table."),
    Check("nec_free_air", "Ampacity in free air, NFPA 70", "ampacity_a", "A",
          named("insulation_c", "size"), lambda row: _pair_of_nominal(_size(row), row),
          -0.12, 0.19,
          "Printed for one conductor alone, ours for a pair; the smallest sizes are printed low."),
    Check("marine_ampacity", "Ampacity, 33 CFR 183.425 Table 5", "ampacity_a", "A",
          named("insulation_c", "size"), lambda row: _pair_of_nominal(_size(row), row),
          -0.115, 0.615,
          "A rule of its own: its small sizes and its 200 °C column are far below physics. The "
          "pack for small craft uses the printed table, not this balance."),
    Check("din43671_bars", "Bare copper bars, DIN 43671", "ampacity_a", "A",
          named("width_mm", "thickness_mm"),
          lambda row: bars.bar_current(
              float(row["width_mm"]) * 1e-3, float(row["thickness_mm"]) * 1e-3, 35.0, 65.0
          ), -0.037, 0.027, "By the empirical formula of the copper trade."),
    Check("bars_other", "Bare copper bars, other tables", "ampacity_a", "A",
          named("case", "width_mm", "thickness_mm", "rise_k"), _upright_bar, -0.025, 0.025,
          "Those for 60 Hz by the heat balance with 1.04 times the resistance at DC."),
    Check("lithium_banks", "Banks of cells", "printed", "mΩ or A", named("case"), _bank,
          -1e-9, 1e-9, "Sums by hand."),
    Check("voltage_drop", "Voltage drop", "printed", "V", named("inputs"), _drop, -1e-9, 0.013,
          "Two pages cut a digit off."),
)  # fmt: skip
