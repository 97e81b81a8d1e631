"""A drawn cable as tables of ampacity are asked for it: one installation a leg."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Installation, Source, Unknown, Value, derive, given


def installations(
    cable: Any, study: Any, *, nominal_voltage: float | None = None
) -> Iterator[Installation]:
    """The legs of a cable that are cables themselves, the positive one first.

    nominal_voltage -- [V], where a table's factors depend on it
    A way back through a hull, chassis or structure is no conductor of a table and is left out.
    """
    for leg in study.legs(cable):
        if leg.part is not None:
            yield Installation(
                leg=leg.name,
                area=leg.area,
                insulation_temperature=leg.insulation_temperature,
                resistance_20c_max=Unknown("resistance", ("not asked",)),
                outside_diameter=Unknown("diameter", ("not asked",)),
                ambient=study.ambient(cable),
                engine_space=cable.place.engine_space,
                bundle=cable.bundle,
                runs=leg.runs,
                sheathed=cable.sheathed,
                nominal_voltage=nominal_voltage,
            )


def with_factors(
    leg: Installation, basis: str, place: Value, together: Value, listed: Value, source: Source
) -> Value:
    """Continuous current [A] of all its parallel cables: n × k_e × k_b × I_t.

    basis  -- its name; place, together -- factors [1] of symbols k_e and k_b
    listed -- a table's current for one cable [A], of symbol I_t; source -- of the table
    """
    runs = given("equal cables in parallel", "n", leg.runs, "", Source("system file"))
    return derive(
        lambda n, e, b, i: n * e * b * i,
        f"ampacity of the {leg.leg} leg ({basis})", "I_z", "A", "n × k_e × k_b × I_t",
        runs, place, together, listed, source=source,
    )  # fmt: skip
