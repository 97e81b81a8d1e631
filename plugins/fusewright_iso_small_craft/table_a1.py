"""Ampacity by ISO 10133:2012 Table A.1: a size, an insulation, a place, a bundle; from memory.

The table lists metric sizes; a size between two rows, such as a gauge, has the smaller row's
figures. What the table does not list is unknown.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from coordination.rules import (
    ROUNDING,
    AmpacityBasis,
    Derived,
    Installation,
    Source,
    Unknown,
    Value,
    derive,
    given,
)
from coordination.rules.kit.installed import installations, with_factors
from coordination.rules.kit.tables import insulation_column
from fusewright_iso_small_craft import tables

NAME = "iso10133-table-a1"
#: Air temperature [°C] of the table; the hottest an engine space is taken to be by its note; and
#: the hottest that the note's factors fit by a heat balance, used where air elsewhere is warmer.
AIR, ENGINE_SPACE, WARM = 30.0, 60.0, 50.0

_TABLE = Source("ISO 10133:2012", "Annex A, Table A.1", read=False)
_NOTE = Source("ISO 10133:2012", "Annex A, note on engine spaces", read=False)
_BUNDLE = Source("ISO 13297:2020", "AC tables, conductors together", read=False)
_FILE = Source("system file")


def ampacity(leg: Installation) -> Value:
    """Continuous current [A] of one leg as installed: n × k_e × k_b × I_t."""
    return with_factors(leg, NAME, place_factor(leg), bundle_factor(leg), listed(leg), _TABLE)


def listed(leg: Installation) -> Value:
    """Current [A] in Table A.1 for size and insulation, without any factor."""
    quantity = "current in Table A.1"
    column = _column(leg.insulation_temperature)
    if isinstance(leg.area, Unknown) or isinstance(column, Unknown):
        return derive(float, quantity, "I_t", "A", "", leg.area, column)
    sizes = tables.ampacity()
    fitting = [size for size in sizes if size.area <= leg.area.value * (1 + ROUNDING)]
    if not fitting or leg.area.value > sizes[-1].area * (1 + ROUNDING):
        what = f"Table A.1 at {leg.area.value * 1e6:.4g} mm²: it lists 0.75 mm² to 150 mm²"
        return Unknown(quantity, (what,), (leg.area,))
    size = fitting[-1]
    amps = dict(size.amps)[column.value]
    return derive(
        lambda _s, _t: amps,
        f"{quantity} at {size.area * 1e6:g} mm², {column.value:g} °C",
        "I_t", "A", "Table A.1 at S, T", replace(leg.area, symbol="S"), column, source=_TABLE,
    )  # fmt: skip


def place_factor(leg: Installation) -> Value:
    """What an engine space leaves [1]; air above 30 °C elsewhere has the same, up to 50 °C.

    The standard gives no other factor; insulation of 60 °C has none and is unknown there.
    """
    if isinstance(leg.ambient, Unknown):
        return Unknown("factor of the place", leg.ambient.missing)
    if not leg.engine_space and leg.ambient.value <= AIR:
        return given("air of at most 30 °C", "k_e", 1.0, "", _TABLE)
    limit = ENGINE_SPACE if leg.engine_space else WARM
    if leg.ambient.value > limit:
        what = f"Table A.1 in air of {leg.ambient.value:g} °C: its note reaches to {limit:g} °C"
        return Unknown("factor of the place", (what,), (leg.ambient,))
    column = _column(leg.insulation_temperature)
    if isinstance(column, Unknown):
        return column
    factor = tables.engine_space()[column.value]
    if factor is None:
        what = f"{column.value:g} °C insulation is not permitted in engine spaces, nor rated there"
        return Unknown("factor of the place", (what,), (column,))
    where = "in an engine space" if leg.engine_space else "in warm air, as in an engine space"
    return derive(
        lambda _: factor, f"factor {where}", "k_e", "", "note at T", column, source=_NOTE
    )  # fmt: skip


def bundle_factor(leg: Installation) -> Value:
    """By conductors that lie together, both of every circuit counted."""
    bundle = given("circuits in the bundle", "b", leg.bundle, "", _FILE)
    runs = given("equal cables in parallel", "n", leg.runs, "", _FILE)
    count = derive(
        lambda b, n: 2 * b * n, "conductors that lie together", "c", "", "2 × b × n", bundle, runs
    )
    return derive(
        bundled_share, "factor for conductors together", "k_b", "", "table at c", count,
        source=_BUNDLE,
    )  # fmt: skip


def bundled_share(conductors: float) -> float:
    """The factor [1] for so many conductors together."""
    return next(factor for most, factor in tables.bundling() if conductors <= most)


def capacities(cable: Any, study: Any) -> Iterator[tuple[str, Value]]:
    """Each leg that is a cable itself, and its capacity [A] by the table as installed."""
    for leg in installations(cable, study):
        yield leg.leg, ampacity(leg)


def _column(temperature: Value) -> Derived | Unknown:
    """The highest insulation rating [°C] of the table that does not exceed the cable's."""
    columns = (rating for rating, _ in tables.ampacity()[0].amps)
    return insulation_column(temperature, columns, "Table A.1", _TABLE)


BASIS = AmpacityBasis(
    name=NAME,
    title="ISO 10133:2012 Table A.1 with its engine-space and bundling factors, from memory",
    source=_TABLE,
    ampacity=ampacity,
)
