"""A drawn cable as the tables of part 5-52 are asked for it, and a verdict against them."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from coordination.rules import Judgement, Value, unproven
from coordination.rules.kit.installed import installations
from fusewright_iec_low_voltage.ampacity import LOWEST, ampacity
from fusewright_iec_low_voltage.bases import method_of
from fusewright_iec_low_voltage.options import asked, stated


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
