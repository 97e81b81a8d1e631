"""Ampacity by 33 CFR 183.425 Table 5 with its notes: a size, an insulation, a place, a bundle.

Figures are looked up and never computed: note 1 has 0.85 at 105 °C where a formula gives 0.856.
"""

from __future__ import annotations

import math

from coordination.rules import (
    DEFINITION,
    AmpacityBasis,
    Derived,
    Installation,
    Source,
    Unknown,
    Value,
    derive,
    given,
)
from coordination.rules.kit.installed import with_factors
from coordination.rules.kit.stated import renamed
from coordination.rules.kit.tables import insulation_column
from fusewright_us_small_craft import tables
from fusewright_us_small_craft.scope import LAW, law

NAME = "us-33cfr183-table5"
#: A size counts as listed down to this share below its nominal area: 107 mm² is a 4/0.
_ROUNDED = 0.0025
#: The next size of the series that the table no longer lists, 250 kcmil [m²]: 120 mm² lies below
#: it and counts as 4/0. Area by definition: 250 000 × (0.001 in)² × π / 4.
_BEYOND = 250e3 * 25.4e-6**2 * math.pi / 4
#: From this nominal voltage on, bundles count (183.435).
BUNDLES_COUNT = 50.0

_TABLE = law("183.425(b), Table 5")
_NOTE2 = law("183.435(b), Table 5 note 2")
_FILE = Source("system file")


def listed(leg: Installation) -> Value:
    """Current [A] in Table 5 for the size and insulation, without any note.

    The largest listed size and insulation rating that do not exceed the cable's count. A size or
    rating below the first, or a size from 250 kcmil on, is outside the table.
    """
    quantity = "current in Table 5"
    size = _size(leg.area)
    if isinstance(size, Unknown):
        return size
    column = _column(leg.insulation_temperature)
    if isinstance(column, Unknown):
        return column
    amps = dict(size.amps)[column.value]
    return derive(
        lambda _area, _rating: amps,
        f"{quantity} at {size.awg} AWG, {column.value:g} °C",
        "I_t", "A", "Table 5 at S, T", renamed(leg.area, "S"), column, source=_TABLE,
    )  # fmt: skip


def place_factor(leg: Installation) -> Value:
    """Note 1: what an engine space leaves, by the column used; 1 elsewhere."""
    if not leg.engine_space:
        return given("outside an engine space", "k_e", 1.0, "", law("183.425(b)"))
    column = _column(leg.insulation_temperature)
    if isinstance(column, Unknown):
        return column
    row = next(row for row in tables.engine_space() if row.least == column.value)
    note = law("183.425(c), Table 5 note 1", read=row.read)
    return derive(
        lambda _: row.factor, "factor in an engine space", "k_e", "", "note 1 at T", column,
        source=note,
    )  # fmt: skip


def bundle_factor(leg: Installation) -> Value:
    """Note 2: three or more current-carrying conductors at a nominal 50 V or more; else 1.

    Every circuit of a bundle is taken to be of this voltage, with both its conductors in it.
    """
    count = _conductors(leg)
    if count.value < 3:
        return _no_bundle("fewer than three conductors together")
    if leg.nominal_voltage is None:
        return Unknown("bundle factor", ("nominal voltage of the circuit",))
    if leg.nominal_voltage < BUNDLES_COUNT:
        return _no_bundle("below 50 V bundles do not count")
    return derive(bundled_share, "bundle factor", "k_b", "", "note 2 at c", count, source=_NOTE2)


def bundled_share(conductors: float) -> float:
    """The factor of note 2 [1] for three or more current-carrying conductors together."""
    return next(r.factor for r in tables.bundling() if r.least <= conductors <= r.most)


def ampacity(leg: Installation) -> Value:
    """Continuous current [A] of one leg as installed: n × k_e × k_b × I_t."""
    return with_factors(leg, NAME, place_factor(leg), bundle_factor(leg), listed(leg), _TABLE)


def literal(leg: Installation) -> Value:
    """What Table 5 lists for the size of the conductor, its notes left out: n I_t [A]."""
    runs = given("equal cables in parallel", "n", leg.runs, "", _FILE)
    return derive(
        lambda n, i: n * i, "Table 5 for the size", "I_5", "A", "n × I_t", runs, listed(leg)
    )


def from_memory(value: Value) -> bool:
    """Whether a figure of the law in the derivation was not read."""
    if isinstance(value, Unknown):
        return False
    sources = (step.source for step in value.steps())
    return any(s is not None and s.document == LAW and not s.read for s in sources)


def _size(area: Value) -> tables.Size | Unknown:
    if isinstance(area, Unknown):
        return Unknown("current in Table 5", area.missing)
    sizes = tables.table5()
    fitting = [size for size in sizes if area.value >= size.area * (1 - _ROUNDED)]
    if not fitting or area.value >= _BEYOND * (1 - _ROUNDED):
        what = f"Table 5 at {area.value * 1e6:.3g} mm²: it lists 18 AWG to 4/0"
        return Unknown("current in Table 5", (what,), (area,))
    return fitting[-1]


def _column(temperature: Value) -> Derived | Unknown:
    """The highest insulation rating [°C] of the table that does not exceed the cable's."""
    columns = (rating for rating, _ in tables.table5()[0].amps)
    return insulation_column(temperature, columns, "Table 5", _TABLE)


def _conductors(leg: Installation) -> Derived:
    bundle = given("circuits in the bundle", "b", leg.bundle, "", _FILE)
    runs = given("equal cables in parallel", "n", leg.runs, "", _FILE)
    made = derive(
        _count,
        "conductors that lie together",
        "c",
        "",
        "2 × b × n",
        bundle,
        runs,
        source=DEFINITION,
    )
    assert isinstance(made, Derived)
    return made


def _count(bundle: float, runs: float) -> float:
    return 2 * bundle * runs


def _no_bundle(why: str) -> Derived:
    return given(why, "k_b", 1.0, "", _NOTE2)


BASIS = AmpacityBasis(
    name=NAME,
    title="33 CFR 183.425 Table 5 with its notes 1 and 2",
    source=_TABLE,
    ampacity=ampacity,
)
