"""Changes, bounds and diffs in words and lines, shared by the text and the JSON answer."""

from __future__ import annotations

import difflib
import json
from collections.abc import Iterable
from typing import TYPE_CHECKING

from coordination.report.wording import clean, counted, number
from coordination.suggest.answer import Answer, Cure, Wanted
from coordination.suggest.moves import SHORTEST
from coordination.suggest.shelf import SIZES, SMALLEST, WIDEST

if TYPE_CHECKING:
    from coordination.model import System
    from coordination.rules.finding import Finding
    from coordination.suggest.change import Change

_FIELDS = {
    "interrupt_ratings": "interrupt ratings",
    "rated_current": "rated current",
    "rated_voltage": "rated voltage",
    "terminal_limit": "terminal limit",
    "insulation_temperature": "insulation temperature",
    "outside_diameter": "outside diameter",
    "short_time": "short-time current",
}


def change_words(change: Change, system: System) -> str:
    """One change as an instruction."""
    what, part = change.subject, change.part_id
    if change.sort == "device":
        circuit = system.circuits[what]
        count = len(circuit.elements)
        where = {0: f"at {circuit.start}", count: f"at {circuit.end}"}.get(
            change.index, f"before part {change.index + 1}"
        )
        apart = f", {change.text} along the conductor" if change.text else ""
        return clean(f"{what}: add {part}, named {change.name}, {where}{apart}")
    ways = {
        "part": f"{what}: {part} in place of {change.was}",
        "cable": f"{what}: {part} in place of {change.was}, both ways",
        "return": f"{what}: {part} back too, in place of {change.was}",
        "length": f"{what}: {change.text} long instead of {change.was}",
        "distance": f"{what}: {change.text} from the battery instead of {change.was}",
        "moved": f"{what}: moved to the {'end' if change.index else 'start'} of its circuit",
    }
    return clean(ways[change.sort])


def bound_words(answer: Answer) -> list[str]:
    """What was looked at, and whether that was everything within the bounds."""
    bounds = answer.bounds
    whole = answer.subject is None
    judged = counted(answer.judged, "combination")
    if whole:
        lines = [
            f"{judged} judged. One fail after another was mended on top of what was mended before, "
            f"each with at most {counted(min(bounds.changes, 2), 'change')} more; every change is "
            "needed for what is fixed, but fewer together may do."
        ]
        if not answer.exhausted:
            lines.append("For what is left not every combination was looked at: ask for it alone.")
    elif answer.exhausted:
        lines = [
            f"{judged} judged: every one of the fewest changes, and of fewer, up to "
            f"{bounds.changes}, in which each change acts on what failed so far; of changes at the "
            "same places the smallest."
        ]
    else:
        lines = [
            f"{judged} judged, then stopped at the limit ({bounds.judged} combinations, "
            f"{bounds.seconds:g} s): others were not looked at."
        ]
    return [
        *lines,
        "Candidates: parts of the file, of the shop, then generic ones, that carry the load, hold "
        "the voltage and break the current as drawn, and state at least what the present part "
        f"states; devices up to {WIDEST:g} times the present rating; the next {SIZES} larger "
        f"cables; the {SMALLEST} smallest bars or switches; a breaker or a fuse for a breaker, a "
        "fuse for a fuse; fuses added between a cable and what feeds it; devices at the other end "
        f"of their circuit; cables shorter by {bounds.shorten / 2:.4g} and {bounds.shorten:.4g} of "
        f"their length (not under {number(SHORTEST, 'm')}).",
        "Ranked by number of changes, then part, device, cable, length, then own and shop parts "
        "before generic ones, then size of change: the catalogue states no prices.",
        "Not changed: sources, loads, conditions, switch positions, places, waivers.",
    ]


def diff_lines(answer: Answer, cure: Cure) -> list[str]:
    """The unified diff of the file, without line ends."""
    name = clean(answer.before.file)
    old = answer.document.text.splitlines(keepends=True)
    new = cure.text.splitlines(keepends=True)
    lines = difflib.unified_diff(old, new, f"a/{name.lstrip('/')}", f"b/{name.lstrip('/')}", n=1)
    return [line.rstrip("\r\n") for line in lines]


def waiver_lines(fails: Iterable[Finding], day: str) -> list[str]:
    """Waivers as they would stand in the file, with the reason and the name left to write."""
    return [
        f"- {{rule: {_text(each.rule)}, subject: {_text(each.subject)}, "
        f'reason: "", by: "", date: {day}}}'
        for each in fails
    ]


def _text(text: str) -> str:
    """A text in quotes that YAML and a reader's terminal both take."""
    return json.dumps(text, ensure_ascii=not text.isprintable())


def wanted_words(wanted: Wanted) -> str:
    """What a part would have to bear at a place where none qualifies, and why none does."""
    needs = wanted.needs
    asked = [
        f"carries {number(needs.load, 'A')}" if needs.load else "",
        f"holds {number(needs.voltage, 'V')}" if needs.voltage else "",
        f"breaks {number(needs.duty, 'A')}" if needs.duty else "",
    ]
    silent = wanted.choice.silent
    words = f"no part at hand that {', '.join(filter(None, asked))} and states enough"
    if silent:
        part, field = silent[0]
        words += (
            f"; {counted(len(silent), 'part')} might do but state too little, such as {part.id}: "
            f"no {_FIELDS.get(field, field)}"
        )
    return clean(f"{wanted.name}: {words}; {wanted.choice.unfit} are too small or too large")
