"""What the code's tables let a conductor carry: table, ambient, number of conductors, runs.

A size between two rows has the smaller row's figures; a temperature rating between two columns the
cooler column's. What the tables do not list is unknown.
"""

from __future__ import annotations

from collections.abc import Sequence

from coordination.rules import Derived, Installation, Source, Unknown, Value, derive, given
from coordination.rules.kit.tables import column_up_to, read_at
from fusewright_us_premises import tables
from fusewright_us_premises.editions import Edition
from fusewright_us_premises.tables import Range, Size

#: By so much [1] a size may fall short of a row's and still be that row's: written areas are
#: rounded ("33.6 mm²" is 2 AWG).
ROUNDED = 0.005
#: The temperature columns [°C] of the tables.
COLUMNS = (60, 75, 90)
_FILE = Source("system file")
_TWO_WIRE = Source("NFPA 70:2023", "310.15(E), both conductors of a DC circuit carry", read=False)


def listed_size(rows: Sequence[Size], area: float) -> Size | None:
    """The largest listed size that is not larger than this area [m²]; None: smaller than all."""
    fitting = [row for row in rows if row.area <= area * (1 + ROUNDED)]
    return max(fitting, key=lambda row: row.area, default=None)


def corrected(leg: Installation, edition: Edition, *, in_free_air: bool) -> Value:
    """Ampacity [A] as installed: n × k_a × k_c × I_t of all its parallel conductors.

    Source: NFPA 70, 310.14 to 310.17.
    """
    rows, name = _table(edition, in_free_air=in_free_air)
    if in_free_air and leg.sheathed:
        words = f"Table {name} is for single conductors in free air, not in a sheath"
        return Unknown("ampacity", (words,))
    current = listed_ampacity(leg, rows, edition.table(name))
    column = column_up_to(leg.insulation_temperature, COLUMNS)
    if isinstance(current, Unknown) or column is None:
        return current
    runs = given("equal conductors in parallel", "n", leg.runs, "", _FILE)
    return derive(
        lambda n, a, c, i: n * a * c * i,
        f"ampacity of the {leg.leg} leg (Table {name})", "I_z", "A", "n × k_a × k_c × I_t",
        runs, _ambient(leg.ambient, column, edition), _adjustment(leg, edition), current,
        source=edition.source("310.15, correction and adjustment", "2023"),
    )  # fmt: skip


def at_termination(leg: Installation, edition: Edition, column: int) -> Value:
    """Ampacity [A] that terminations of this temperature column [°C] leave it, by Table 310.16."""
    name = edition.raceway
    current = listed_ampacity(leg, tables.raceway(), edition.table(name), most=column)
    return _together(leg, current, name)


def listed_ampacity(
    leg: Installation, rows: Sequence[Size], source: Source, most: int = 90
) -> Value:
    """The table's figure [A] for one conductor, from no column above `most` [°C]."""
    area, limit = leg.area, leg.insulation_temperature
    if isinstance(area, Unknown) or isinstance(limit, Unknown):
        return derive(float, "listed ampacity", "I_t", "A", "", area, limit)
    size = listed_size(rows, area.value)
    if size is None:
        return Unknown("listed ampacity", (f"{source.clause}: sizes below {rows[0].words}",))
    column = min(column_up_to(limit, COLUMNS) or 0, most)
    amps = dict(size.amps).get(column)
    if amps is None:
        words = f"{source.clause}: a {column} °C figure for {size.words}"
        if not column:
            words = f"{source.clause}: a column for insulation of {limit.value:g} °C"
        return Unknown("listed ampacity", (words,), (area, limit))
    figure = given(f"{size.words} in the {column} °C column", "I_listed", amps, "A", source)
    at = given(f"area of {size.words}", "S_listed", size.area, "m²", source)
    return read_at(figure, at, area, "listed ampacity", "I_t")


def _together(leg: Installation, current: Value, name: str) -> Value:
    runs = given("equal conductors in parallel", "n", leg.runs, "", _FILE)
    quantity = f"ampacity of the {leg.leg} leg before factors (Table {name})"
    return derive(lambda n, i: n * i, quantity, "I_z0", "A", "n × I_t", runs, current)


def _table(edition: Edition, *, in_free_air: bool) -> tuple[Sequence[Size], str]:
    if in_free_air:
        return tables.free_air(), edition.free_air
    return tables.raceway(), edition.raceway


def _ambient(ambient: Value, column: int, edition: Edition) -> Value:
    """Correction factor; a temperature between two ranges belongs to the warmer one."""
    if isinstance(ambient, Unknown):
        return ambient
    source = edition.table(edition.ambient)
    row = _first(tables.ambient(column), ambient.value)
    if row is None:
        words = f"{source.clause}: no factor for the {column} °C column at {ambient.value:g} °C"
        return Unknown("ambient correction", (words,), (ambient,))
    listed = given(f"factor up to {row.high:g} °C", "k_listed", row.figure, "", source)
    formula = f"k_listed at {ambient.symbol}"
    return derive(lambda k, _t: k, "ambient correction", "k_a", "", formula, listed, ambient)


def _adjustment(leg: Installation, edition: Edition) -> Derived:
    """Adjustment by current-carrying conductors; up to three none, which the tables include."""
    count = 2 * leg.bundle * leg.runs
    source = edition.table(edition.adjustment)
    row = _first(tables.adjustment(), count)
    share = 1.0 if count <= 3 or row is None else row.figure
    bundle = given("circuits in the bundle", "b", leg.bundle, "", _FILE)
    runs = given("equal conductors in parallel", "n", leg.runs, "", _FILE)
    conductors = derive(
        lambda b, n: 2 * b * n, "current-carrying conductors", "N", "", "2 × b × n", bundle, runs,
        source=_TWO_WIRE,
    )  # fmt: skip
    listed = given("share left of the table's figure", "k_listed", share, "", source)
    found = derive(
        lambda k, _n: k, "adjustment for bundling", "k_c", "", "k_listed at N", listed, conductors
    )
    assert isinstance(found, Derived)
    return found


def _first(rows: Sequence[Range], value: float) -> Range | None:
    return next((row for row in rows if value <= row.high), None)
