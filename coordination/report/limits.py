"""What a report must say besides verdicts: what was not checked, and the usual cautions."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.languages.language import ENGLISH
from coordination.report.wording import clean

if TYPE_CHECKING:
    from coordination.languages.language import Language
    from coordination.rules.finding import Findings

#: Nothing a drawing of a DC system can show; no pack covers these.
NEVER_CHECKED = (
    "the AC side: shore power, inverter output, earthing",
    "workmanship: crimps, torque, chafe, support and routing of cables",
    "whether what was built is what was drawn",
    "corrosion and galvanic isolation",
    "ventilation, gas, and thermal runaway of batteries",
    "mechanical strength, vibration, water",
    "settings and faults of electronics (battery management, chargers, converters)",
)

CAUTIONS = (
    "These verdicts hold for the inputs given and for nothing else: they say that these checks "
    "passed or did not, on these figures.",
    "Local codes, makers' instructions and licensed practice come first where they ask for more.",
    "Check again after every change of a part, a length or a battery.",
    "Disconnect and isolate every source before working on the system.",
    "A battery's own electronics are no fault protection and are not counted as such.",
    "Figures marked (from memory) were not read in their document: look them up first.",
)


def not_checked(findings: Findings, words: Language = ENGLISH) -> tuple[str, ...]:
    """What the packs that ran leave out, by their own cards, then what none can check.

    A pack's words for what no pack can check give way to those of the whole list.
    """
    standing = {_about(item) for item in NEVER_CHECKED}
    named = (clean(item) for pack in findings.packs for item in pack.card.not_covered)
    own = (item for item in named if _about(item) not in standing)
    said = map(words.say, dict.fromkeys((*own, *_never_closed(findings), *NEVER_CHECKED)))
    return tuple(dict.fromkeys(said))


def cautions(findings: Findings, words: Language = ENGLISH) -> tuple[str, ...]:
    """The usual cautions, after what this system's own figures rest on."""
    sources = findings.system.sources.values()
    parts = {each.part.id: each.part for each in sources if each.part is not None}
    bands = (
        f"{clean(part.id)} states one resistance ({clean(part.written.get('resistance', ''))}): "
        f"an assumed band of {part.written['resistance.assumed']} was laid around it. A measured "
        "or a published band is better."
        for part in parts.values()
        if "resistance.assumed" in part.written
    )
    return tuple(map(words.say, (*bands, *CAUTIONS)))


def _about(item: str) -> str:
    """What an entry of the list is about: its words before a colon or an "and"."""
    return item.partition(":")[0].partition(" and ")[0].strip().lower()


def _never_closed(findings: Findings) -> list[str]:
    """Links drawn open that no condition closes: what would flow through them is not checked."""
    states = findings.system.conditions
    closed = {name for each in findings.studies if each in states for name in states[each].close}
    names = [
        clean(element.name)
        for element in findings.system.elements()
        if element.normally_open and element.name not in closed
    ]
    return [f"anything with {name} closed: no condition that was run closes it" for name in names]
