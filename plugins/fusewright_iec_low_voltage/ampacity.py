"""What part 5-52 lets a conductor carry: method, ambient air, grouping, runs.

A size between two rows has the smaller row's figures, a temperature rating between the two columns
the cooler column's. What the tables do not list is unknown.
"""

from __future__ import annotations

from coordination.rules import Derived, Installation, Source, Unknown, Value, derive, given
from coordination.rules.kit.tables import column_up_to, read_at
from fusewright_iec_low_voltage import tables
from fusewright_iec_low_voltage.parts_of_standard import wiring

METHODS = ("A1", "A2", "B1", "B2", "C", "E", "F")
#: The method whose figures are nowhere larger than another's: what it allows, every one allows.
LOWEST = "A2"
#: By so much [1] a size may fall short of a row's and still be that row's: written areas are
#: rounded.
ROUNDED = 0.005
_FILE = Source("system file")
#: Tables of two loaded conductors, by method and column [°C].
_TABLES = {
    **{(method, 70): "Table B.52.2" for method in ("A1", "A2", "B1", "B2", "C")},
    **{(method, 90): "Table B.52.3" for method in ("A1", "A2", "B1", "B2", "C")},
    **{(method, 70): "Table B.52.10" for method in ("E", "F")},
    **{(method, 90): "Table B.52.12" for method in ("E", "F")},
}


def ampacity(leg: Installation, method: str) -> Value:
    """Ampacity I_z [A] as installed: n × k_a × k_g × I_t of all its parallel conductors.

    Source: IEC 60364-5-52:2009, 523 and Annex B.
    """
    if method == "F" and leg.sheathed:
        return Unknown("ampacity", ("method F is for single cores in free air, not in a sheath",))
    current, hottest = _listed(leg, method), column(leg.insulation_temperature)
    if isinstance(current, Unknown) or hottest is None:
        return current
    runs = given("equal cables in parallel", "n", leg.runs, "", _FILE)
    return derive(
        lambda n, a, g, i: n * a * g * i,
        f"ampacity of the {leg.leg} leg (method {method})", "I_z", "A", "n × k_a × k_g × I_t",
        runs, _ambient(leg.ambient, hottest), _grouping(leg), current,
        source=wiring("523, Annex B"),
    )  # fmt: skip


def column(limit: Value) -> int | None:
    """The hotter of the two columns [°C] that is not above the insulation's rating."""
    return column_up_to(limit, (70, 90))


def _listed(leg: Installation, method: str) -> Value:
    area, limit = leg.area, leg.insulation_temperature
    if isinstance(area, Unknown) or isinstance(limit, Unknown):
        return derive(float, "listed ampacity", "I_t", "A", "", area, limit)
    hottest = column(limit)
    if hottest is None:
        missing = f"Annex B: a column for insulation of {limit.value:g} °C"
        return Unknown("listed ampacity", (missing,), (limit,))
    source = wiring(_TABLES[method, hottest])
    rows = tables.ampacity(method, hottest)
    fitting = [row for row in rows if row[0] <= area.value * (1 + ROUNDED)]
    if not fitting:
        missing = f"{source.clause}: method {method} below {rows[0][0] * 1e6:g} mm²"
        return Unknown("listed ampacity", (missing,), (area,))
    size, amps = max(fitting)
    words = f"{size * 1e6:g} mm², method {method}, {hottest} °C"
    figure = given(words, "I_listed", amps, "A", source)
    at = given("listed area", "S_listed", size, "m²", source)
    return read_at(figure, at, area, "listed ampacity", "I_t")


def _ambient(air: Value, hottest: int) -> Value:
    """Factor for the air's temperature; between two rows that of the warmer one."""
    if isinstance(air, Unknown):
        return air
    source = wiring("Table B.52.14")
    warmer = [row for row in tables.ambient(hottest) if row[0] >= air.value]
    if not warmer:
        missing = f"{source.clause}: a factor at {air.value:g} °C for a {hottest} °C conductor"
        return Unknown("ambient factor", (missing,), (air,))
    temperature, factor = min(warmer)
    listed = given(f"factor at {temperature:g} °C", "k_listed", factor, "", source)
    formula = f"k_listed at {air.symbol}"
    return derive(lambda k, _t: k, "ambient factor", "k_a", "", formula, listed, air)


def _grouping(leg: Installation) -> Value:
    """Factor for bunched circuits; each parallel run counts as one, between two rows the larger."""
    source = wiring("Table B.52.17, row 1")
    bundle = given("circuits in the bundle", "b", leg.bundle, "", _FILE)
    runs = given("equal cables in parallel", "n", leg.runs, "", _FILE)
    together = derive(lambda b, n: b * n, "circuits together", "N", "", "b × n", bundle, runs)
    assert isinstance(together, Derived)
    more = [row for row in tables.bunched() if row[0] >= together.value]
    if not more:
        missing = f"{source.clause}: a factor for {together.value:g} circuits"
        return Unknown("grouping factor", (missing,), (together,))
    circuits, factor = min(more)
    listed = given(f"factor for {circuits} circuits", "k_listed", factor, "", source)
    formula = "k_listed at N"
    return derive(lambda k, _n: k, "grouping factor", "k_g", "", formula, listed, together)
