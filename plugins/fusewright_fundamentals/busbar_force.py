"""What pushes bare bars apart in a fault: a number for whoever chooses their supports."""

from __future__ import annotations

from typing import Any

from coordination.physics.busbars import bar_force
from coordination.rules import Card, Judgement, Source, Unknown, derive, given, rule, unproven
from coordination.rules.kit.stated import renamed

CARD = Card(
    name="busbar-force",
    title="Force between bare bars",
    why="Opposite currents push the bars apart with the square of the current, long before they "
    "are warm. The file does not say how far apart they stand: the force is told for 50 mm, and "
    "goes inversely with the distance.",
    wrong="Two bars on tape and a screw at each end.",
    right="Supports rated for this force over the length between them.",
    severity="damage",
    source=Source("IEC 60865-1:2011", clause="5.2, two parallel conductors", read=False),
)

#: Distance [m] between centres for which the force is told.
DISTANCE = 0.050


@rule(CARD, each="busbar")
def busbar_force(busbar: Any, study: Any) -> Judgement | None:
    """A note with the force per metre, for bars whose section is stated."""
    if busbar.part.width is None or busbar.part.thickness is None:
        return None
    current = study.fault_max(busbar.name)
    if isinstance(current, Unknown):
        return unproven(*current.missing)
    distance = given("distance of the bars", "d", DISTANCE, "m", Source("assumption", "50 mm"))
    force = derive(
        bar_force, "force per metre between bars 50 mm apart", "F", "N/m",
        "2 × 10⁻⁷ × I² / d", renamed(current, "I"), distance, source=CARD.source,
    )  # fmt: skip
    value = "" if isinstance(force, Unknown) else _told(force.value)
    return Judgement(verdict="note", found=force, reason=value, source=CARD.source)


def _told(force: float) -> str:
    return f"{float(f'{force:.3g}'):g} N/m between bars 50 mm apart"
