"""What has changed since a seal, in words: as lines of a report, and in one line for a list."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Final

from coordination.report.lines import NARROWEST, labelled, wrapped
from coordination.report.tables import columns, markdown_safe
from coordination.report.wording import clean, counted
from coordination.sealing.changes import MOVES, Changes, Differs, Move, PartChange
from coordination.sealing.seal import Seal, SealedVerdict

#: Headings of the moves, in their order.
_TITLES: Final = {
    "new fail": "New fails",
    "newly unproven": "Newly unproven",
    "lower margin": "Margins lower",
    "newly waived": "Newly waived",
    "no longer judged": "No longer judged",
    "cured": "Cured",
    "other": "Otherwise judged",
    "newly judged": "Newly judged",
    "higher margin": "Margins higher",
}
#: Moves that are only counted: nobody has to look at them one by one.
_COUNTED: Final = ("newly judged", "higher margin")
#: Digits of a hash that tell two apart for people.
SHORT: Final = 12
_HASH_LENGTH: Final = 64


def changes_text(changes: Changes, width: int) -> str:
    """What has changed since the seal, as a section of the report; ends in a newline."""
    width = max(width, NARROWEST)
    lines = ["", *wrapped(headline(changes), width, "", "  ")]
    lines += labelled(_basis(changes), width, "  ")
    for how in MOVES:
        moves = changes.moved(how)
        if moves and how in _COUNTED:
            lines += wrapped(f"{_TITLES[how]}: {len(moves)}", width, "  ")
        elif moves:
            rows = [_row(each) for each in sorted(moves, key=_least)]
            lines += ["", f"{_TITLES[how]} ({len(moves)})"]
            lines += columns(rows, ("subject", "rule", "then", "now"), "llll", width)
    return "\n".join(lines) + "\n"


def changes_markdown(changes: Changes) -> str:
    """The same for a document."""
    from coordination.report.tables import markdown_table

    lines = ["", "## Since the seal", "", f"{markdown_safe(headline(changes))}.", ""]
    lines += [f"- {label}: {markdown_safe(text)}" for label, text in _basis(changes)]
    if changes.moves:
        rows = [(each.how, *_row(each)) for each in changes.moves]
        head = ("change", "subject", "rule", "then", "now")
        lines += ["", markdown_table(rows, head, "lllll")]
    return "\n".join(lines) + "\n"


def headline(changes: Changes) -> str:
    """ "Changed since the seal of 2026-11-25 by J. Tern"."""
    seal = changes.seal
    state = "Nothing has changed" if changes.none else "Changed"
    return f"{state} since the seal of {sealed_by(seal)}"


def sealed_by(seal: Seal) -> str:
    """ "2026-11-25 by J. Tern (before launch)"."""
    why = f" ({seal.why})" if seal.why else ""
    return clean(f"{seal.date} by {seal.by}{why}")


def _basis(changes: Changes) -> Iterator[tuple[str, str]]:
    """What the verdict rests on and what became of it: label and text."""
    yield "seal", changes.seal.digest[:SHORT]
    if changes.verdict:
        yield "verdict", _differs(changes.verdict, named=False)
    for label, group in (
        ("file", changes.file), ("program", changes.program), ("packs", changes.packs),
        ("rules", changes.rules), ("asked", changes.asked), ("conditions", changes.conditions),
        ("problems", changes.problems),
    ):  # fmt: skip
        yield from ((label, _differs(each)) for each in group)
    yield from (("part", part_words(each)) for each in changes.parts)


def part_words(change: PartChange) -> str:
    """ "fuse-t-300 changed: rated_current 300 A then, 250 A now"."""
    fields = "; ".join(map(_differs, change.fields))
    return clean(f"{change.id} {change.how}") + (f": {fields}" if fields else "")


def _differs(each: Differs, named: bool = True) -> str:
    head = f"{each.what}: " if named else ""
    return clean(f"{head}{_side(each.was)} then, {_side(each.now)} now")


def _side(text: str) -> str:
    if len(text) == _HASH_LENGTH and text.isalnum():
        return text[:SHORT]
    return text or "not there"


def _least(move: Move) -> float:
    """The smallest margin first."""
    margin = move.now.margin if move.now else None
    return float("inf") if margin is None else margin


def _row(move: Move) -> tuple[str, str, str, str]:
    return clean(move.subject), clean(move.rule), _verdict(move.was), _verdict(move.now)


def _verdict(verdict: SealedVerdict | None) -> str:
    if verdict is None:
        return "not judged"
    margin = "" if verdict.margin is None else f", margin {verdict.margin:.4g}"
    return f"{verdict.verdict}{margin}"


def moves_in_words(counts: Iterable[tuple[str, int]]) -> str:
    """ "2 new fails, 1 cured": how many verdicts moved, by kind, without the harmless."""
    words = {"new fail": "new fail", "lower margin": "lower margin"}
    said = (
        counted(count, words[how]) if how in words else f"{count} {how}"
        for how, count in counts
        if count and how not in _COUNTED
    )
    return ", ".join(said)
