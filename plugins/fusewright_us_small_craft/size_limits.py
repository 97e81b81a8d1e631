"""The smallest conductors: 16 AWG alone, 18 AWG in a sheath with others and short outside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from coordination.rules import Derived, Judgement, Source, Unknown, compare, given, unproven
from fusewright_us_small_craft import tables
from fusewright_us_small_craft.conductor import installations
from fusewright_us_small_craft.options import asked, stated

#: A size counts as listed down to this share below its nominal area.
_ROUNDED = 0.0025


def judge_size(cable: Any, study: Any, source: Source) -> Iterator[Judgement]:
    """Each leg's area against that of its smallest size; metric sizes by their area."""
    for leg in installations(cable, study):
        area = leg.area
        if isinstance(area, Unknown):
            yield compare(area, at_least=_smallest("16", source))
            continue
        yield _one(cable, replace(area, symbol="S"), study, source)


def _one(cable: Any, area: Derived, study: Any, source: Source) -> Judgement:
    alone, cored = _smallest("16", source), _smallest("18", source)
    judgement = compare(area, at_least=alone, reason="16 AWG where run alone")
    if judgement.verdict == "pass" or compare(area, at_least=cored).verdict == "fail":
        return judgement
    if cable.sheathed is False:
        return judgement
    if cable.sheathed is None:
        return unproven(f"{cable.name}: sheathed", reason="18 AWG only in a sheath with others")
    short = stated(study, "cores_within_30_in")
    if short is None:
        return unproven(asked("cores_within_30_in"), reason="18 AWG in a sheath")
    if not short:
        return replace(judgement, reason="18 AWG for more than 30 in outside its sheath")
    return compare(area, at_least=cored, reason="18 AWG in a sheath, at most 30 in out of it")


def _smallest(awg: str, source: Source) -> Derived:
    size = next(size for size in tables.table5() if size.awg == awg)
    return given(f"{awg} AWG", "S_min", size.area * (1 - _ROUNDED), "m²", source, f"{awg} AWG")
