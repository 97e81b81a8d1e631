"""The ampacity basis of this pack: a heat balance of a pair of cables touching in still air.

The equations are physics; this module puts their steps in order for one installed leg.
"""

from __future__ import annotations

from coordination.physics.ampacity import allowed_heat, ampacity_from_heat
from coordination.physics.bundling import bundle_factor, bundled_pairs, installed_ampacity
from coordination.physics.conductors import conductor_diameter, resistance_at_temperature
from coordination.rules import (
    COMMON_PRACTICE,
    AmpacityBasis,
    Derived,
    Installation,
    Source,
    Unknown,
    Value,
    given,
    reckon,
)
from coordination.rules.kit.stated import renamed

#: What conduit, loom or a sheath leaves of the current in open air: the smallest share that single
#: cores in conduit (method B1) keep of those touching in air (method F) is 477 A / 629 A = 0.758.
SHEATHED = 0.75
#: Largest area [m²] of which a thinner wall never raises the ampacity.
LARGEST_ASSUMED = 150e-6

NAME = "pair-in-free-air"
#: Answers kept: equal cables in equal places are common, and nothing else enters the answer.
MOST_KEPT = 4096
_found: dict[object, Value] = {}
_BALANCE = Source(
    "IEC 60287-1-1:2006, IEC 60287-2-1:2015", clause="1.4; 4.1.2.1, 4.2.1", read=False
)
_COPPER = Source("IEC 60228:2004", clause="Annex B", read=False)
_STRANDS = Source("NFPA 70:2023", clause="chapter 9, Table 8")
_BUNDLE = Source("IEC 60364-5-52:2009", clause="Table B.52.17 row 1, bounded from below")
_SHEATH = Source("IEC 60364-5-52:2009", clause="Tables B.52.2 and B.52.10, B1 over F at 300 mm²")
_FILE = Source("system file")


def pair_in_free_air(leg: Installation) -> Value:
    """Continuous current [A] of one leg as installed: bundle, runs, sheath and ambient included.

    n k c I, where I makes just the heat that brings the conductor to its insulation's limit

    A sheath counts only where the file states one; open air otherwise.
    """
    key = (_mark(leg.area), _mark(leg.insulation_temperature), _mark(leg.resistance_20c_max),
           _mark(leg.outside_diameter), _mark(leg.ambient),
           leg.leg, leg.bundle, leg.runs, bool(leg.sheathed))  # fmt: skip
    if key not in _found:
        if len(_found) >= MOST_KEPT:
            _found.clear()
        _found[key] = _ampacity(leg)
    return _found[key]


def _mark(value: Value) -> object:
    """What tells one figure from another: equal marks have equal derivations."""
    if isinstance(value, Unknown):
        return value.missing
    return (value.value, value.quantity, value.source, value.written)


def _ampacity(leg: Installation) -> Value:
    single = _single(leg)
    bundle = given("circuits in the bundle", "b", leg.bundle, "", _FILE)
    runs = given("equal cables in parallel", "n", leg.runs, "", _FILE)
    pairs = reckon(bundled_pairs, "pairs that lie together", "N", "", "b × n", bundle, runs)
    factor = reckon(
        bundle_factor, "bundle factor", "k", "",
        "N^(-1/3), above 20: 20^(-1/3) × sqrt(20 / N)", pairs, source=_BUNDLE,
    )  # fmt: skip
    share = _sheath(leg.sheathed)
    return reckon(
        lambda n, k, c, i: installed_ampacity(c * i, k, n),
        f"ampacity of the {leg.leg} leg ({NAME})", "I_z", "A", "n × k × c × I",
        runs, factor, share, single, source=_BALANCE,
    )  # fmt: skip


def _single(leg: Installation) -> Value:
    """Current of one pair alone in this air."""
    conductor = reckon(
        conductor_diameter, "diameter over the strands", "d", "m",
        "1.13 × sqrt(4 × S / π)", renamed(leg.area, "S"), source=_STRANDS,
    )  # fmt: skip
    limit, air = renamed(leg.insulation_temperature, "T_r"), renamed(leg.ambient, "T_a")
    outside = _outside(leg, conductor)
    heat = reckon(
        allowed_heat, "heat that warms it to its limit", "W", "W/m",
        "solve T_r - T_a = W × R_th(d, D) + (W / (π × D × h(D)))^0.8",
        limit, air, conductor, outside, source=_BALANCE,
    )  # fmt: skip
    cold = renamed(leg.resistance_20c_max, "r_20")
    hot = reckon(
        resistance_at_temperature, "resistance per length at that limit", "r", "Ω/m",
        "r_20 × (234.5 + T_r) / 254.5", cold, limit, source=_COPPER,
    )  # fmt: skip
    quantity = "current of one pair alone"
    return reckon(ampacity_from_heat, quantity, "I", "A", "sqrt(W / r)", heat, hot)


def _outside(leg: Installation, conductor: Value) -> Value:
    """Diameter over the insulation; where it is not stated, the least it can be.

    A bare conductor sheds its heat worst up to 150 mm²: any wall to 3 mm raises the ampacity there.
    """
    area, stated = leg.area, leg.outside_diameter
    small = isinstance(area, Derived) and area.value <= LARGEST_ASSUMED
    if isinstance(stated, Derived) or not small:
        return renamed(stated, "D")
    quantity = "diameter over the insulation, not stated: the conductor's own"
    return reckon(lambda d: d, quantity, "D", "m", "d", conductor, source=COMMON_PRACTICE)


def _sheath(sheathed: bool | None) -> Derived:
    if sheathed:
        return given("share left in a sheath", "c", SHEATHED, "", _SHEATH)
    return given("share left in open air", "c", 1.0, "", COMMON_PRACTICE)


BASIS = AmpacityBasis(
    name=NAME,
    title="a pair of cables touching in still air, by heat balance",
    source=_BALANCE,
    ampacity=pair_in_free_air,
)
