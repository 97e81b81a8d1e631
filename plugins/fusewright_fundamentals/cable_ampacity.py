"""A cable must carry its load for as long as it lasts, where it lies."""

from __future__ import annotations

from typing import Any

from coordination.rules import Card, Judgement, Source, compare, rule
from fusewright_fundamentals.cranking_path import cranking_draw, cranking_note
from fusewright_fundamentals.legs import leg_of

CARD = Card(
    name="cable-ampacity",
    title="Cable carries its load",
    why="A conductor settles where its losses equal the heat it sheds; above its insulation's "
    "temperature the insulation ages, softens and burns.",
    wrong="A cable chosen by voltage drop alone, or by a table for open air, laid in a hot engine "
    "space or in a full bundle.",
    right="A larger cable, a higher insulation class, a cooler route, or a smaller bundle.",
    severity="fire",
    source=Source("IEC 60364-4-43:2008", clause="433.1, design current <= Iz", read=False),
)


@rule(CARD, each="cable")
def cable_ampacity(cable: Any, study: Any) -> Judgement:
    """Largest design current of the cable against the ampacity of its positive leg.

    A starter draws for seconds: what its conductors carry beside that is judged, the rest noted.
    """
    load, limit = study.load(cable), study.ampacity(cable, leg_of(cable, study, "positive"))
    judgement = compare(load, at_most=limit, reason=f"ampacity basis: {study.basis.name}")
    if judgement.verdict == "unproven" or (judgement.verdict == "pass" and load.value > 0):
        return judgement
    lasting = load.value - cranking_draw(study)
    exempt = cranking_note(cable, study) if lasting <= limit.value else None
    return exempt or judgement
