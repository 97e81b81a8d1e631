"""A drawn cable as the code's tables are asked for it, and which table that is."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import Installation, Unknown
from fusewright_us_premises.bases import FREE_AIR
from fusewright_us_premises.options import stated


def installations(cable: Any, study: Any) -> Iterator[Installation]:
    """The legs of a cable that are cables themselves, the positive one first.

    A way back through a chassis or structure is no conductor of the tables and is left out.
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
                nominal_voltage=None,
            )


def wired_in_free_air(cable: Any, study: Any) -> bool:
    """Whether the table for free air applies: stated by option or by the basis the file names.

    Nothing stated: the table for raceway and cable, whose figures are nowhere larger.
    """
    if cable.sheathed:
        return False
    wiring = stated(study, "wiring")
    if wiring is not None:
        return bool(wiring == "free-air")
    return bool(study.system.ampacity_basis == FREE_AIR)
