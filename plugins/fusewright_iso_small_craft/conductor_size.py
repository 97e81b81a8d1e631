"""The smallest conductors: 1 mm² run alone, 0.75 mm² in a sheath and short outside it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    Rule,
    Source,
    Unknown,
    Value,
    capped,
    compare,
    given,
    note,
    unproven,
)
from coordination.rules.kit.editions import dated
from fusewright_iso_small_craft.editions import Y2020, Edition
from fusewright_iso_small_craft.options import asked, stated
from fusewright_iso_small_craft.scope import iso_rule

CARD = Card(
    name="conductor-size",
    title="Smallest conductor",
    why="A thin conductor breaks by vibration and chafe, however little it carries.",
    wrong="A sense lead of 0.5 mm² run alone through a bilge; 0.75 mm² cores stripped for a metre.",
    right="1 mm² where run alone for more than 200 mm; 0.75 mm² in a sheath, out of it for 800 mm "
    "at most, or inside a panel board (options: panel_board).",
    severity="damage",
    source=Y2020.carried("7.7", read=True),
    basis="standard",
)
CORES = "cores below 1 mm² leave their sheath for at most 800 mm"
SHORT = 0.2


def of(edition: Edition) -> Rule:
    """The rule in this edition; the clause was read in that of 2012."""
    source = edition.carried("7.7", read=True)

    @iso_rule(dated(CARD, source), each="cable")
    def conductor_size(cable: Any, study: Any) -> Iterator[Judgement]:
        """Each leg's area against that of its smallest size."""
        for leg in study.legs(cable):
            if leg.part is not None:
                yield capped(_judge(cable, leg, study, source), source)

    return conductor_size


def _judge(cable: Any, leg: Any, study: Any, source: Source) -> Judgement:
    alone, thin = _least(1.0, source), _least(0.75, source)
    area: Value = leg.area
    if isinstance(area, Unknown):
        return compare(area, at_least=alone)
    area = replace(area, symbol="S")
    wide = compare(area, at_least=alone, reason=f"{leg.name} leg, run alone")
    if wide.verdict == "pass":
        return wide
    if isinstance(leg.length, Derived) and leg.length.value <= SHORT * (1 + 1e-9):
        return note("not longer than 200 mm: no smallest size", source=source)
    if stated(study, "panel_board") == cable.place.name:
        return compare(area, at_least=thin, reason="inside a panel board, as stated")
    if cable.sheathed is False or compare(area, at_least=thin).verdict == "fail":
        return wide
    return _sheathed(cable, area, study, wide, thin)


def _sheathed(
    cable: Any, area: Value, study: Any, alone: Judgement, thin: Derived
) -> Judgement:
    if cable.sheathed is None:
        return unproven(f"{cable.name}: sheathed", reason="0.75 mm² only in a sheath")
    short = stated(study, "cores_within_800_mm")
    if short is None:
        return unproven(asked("cores_within_800_mm", CORES), reason="0.75 mm² in a sheath")
    if not short:
        return replace(alone, reason="more than 800 mm outside its sheath, as stated")
    return compare(area, at_least=thin, reason="in a sheath, at most 800 mm out of it")


def _least(mm2: float, source: Source) -> Derived:
    return given("smallest area", "S_min", mm2 * 1e-6, "m²", source, f"{mm2:g} mm²")
