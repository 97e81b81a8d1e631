"""A drawn cable as the tables of part 5-52 are asked for it, and a verdict against them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from coordination.rules import Installation, Judgement, Unknown, Value, unproven
from fusewright_iec_low_voltage.ampacity import LOWEST, ampacity
from fusewright_iec_low_voltage.bases import method_of
from fusewright_iec_low_voltage.options import asked, stated


def installations(cable: Any, study: Any) -> Iterator[Installation]:
    """The legs of a cable that are cables themselves, the positive one first."""
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


def against_ampacity(
    cable: Any, study: Any, judge: Callable[[Value], Judgement]
) -> Iterator[Judgement]:
    """A verdict for each leg against its ampacity by the stated method.

    Without a method the lowest figures of all stand in: what they allow, every method allows; a
    fail by them proves nothing and asks for the method.
    """
    method = _method(study)
    for leg in installations(cable, study):
        judgement = judge(ampacity(leg, method or LOWEST))
        if method is None and judgement.verdict == "fail":
            yield unproven(asked("method"))
        else:
            yield judgement


def _method(study: Any) -> str | None:
    """The reference method by option, else by the basis the file names; None: not stated."""
    method = stated(study, "method")
    return method or method_of(study.system.ampacity_basis or "")
