"""A schedule in another language: its headings, and the words and figures of its cells.

Names out of the file, and ids and families of parts, stay as they were written.
"""

from __future__ import annotations

from coordination.languages.language import Language, plain
from coordination.schedules.kinds import Column, Schedule

#: Columns that hold names of the file, and others that belong to no language.
_NAMES = frozenset({
    "circuit", "place", "condition", "charged by", "part", "family", "from", "to",
    "at", "order", "worked by", "upstream",
})  # fmt: skip
#: What the column is for that names the row.
_WHOM = "which one"
#: Columns that hold names, or words about them.
_MIXED = frozenset({"dark on pack trip", "text", "subject"})
#: Columns of names, but for pieces that begin so.
_GUARDS = ("guarded at from", "guarded at to")
_ABOUT = ("none towards ", "limits itself: ")


def in_language(schedule: Schedule, words: Language) -> Schedule:
    """The schedule with everything said in a language; English comes back as it is."""
    if words.code == "en":
        return schedule
    return schedule._replace(
        title=words.say(schedule.title),
        columns=tuple(_said(column, words) for column in schedule.columns),
        rows=tuple(
            tuple(
                cell_in(column, text, subject, words)
                for column, text in zip(schedule.columns, row, strict=True)
            )
            for row, subject in zip(schedule.rows, subjects_of(schedule), strict=True)
        ),
    )


def subjects_of(schedule: Schedule) -> tuple[str, ...]:
    """The subject of every row; "" for rows about no one thing."""
    return schedule.subjects or ("",) * len(schedule.rows)


def _said(column: Column, words: Language) -> Column:
    say = words.say
    return Column(say(column.name), say(column.purpose), say(column.source))


def cell_in(column: Column, text: str, subject: str, words: Language) -> str:
    """A cell in a language; `column` as it is in English."""
    named = column.name in _NAMES or column.purpose == _WHOM
    if named or (column.name == "subject" and subject):
        return text
    if column.name in _GUARDS:
        return "; ".join(_guard(piece, words) for piece in text.split("; "))
    said = words.say(text)
    return plain(said) if column.name in _MIXED else said


def _guard(piece: str, words: Language) -> str:
    return words.say(piece) if piece.startswith(_ABOUT) else piece


def plainly(schedule: Schedule) -> Schedule:
    """The schedule without marks at what stayed English: for files that cannot show them."""
    return schedule._replace(
        title=plain(schedule.title),
        columns=tuple(Column(*map(plain, column)) for column in schedule.columns),
        rows=tuple(tuple(map(plain, row)) for row in schedule.rows),
    )
