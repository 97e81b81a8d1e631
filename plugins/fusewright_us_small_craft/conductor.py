"""A drawn cable as Table 5 is asked for it: one installation a leg."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Derived, Installation, Unknown
from fusewright_us_small_craft.voltage import nominal


def installations(cable: Any, study: Any) -> Iterator[Installation]:
    """The legs of a cable that are cables themselves, the positive one first.

    A way back through a hull or chassis is no conductor of the table and is left out.
    """
    volts = nominal(cable.start, study)
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
                nominal_voltage=volts.value if isinstance(volts, Derived) else None,
            )
