"""A drawn cable as tables of ampacity are asked for it: one installation a leg."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Installation, Unknown


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
