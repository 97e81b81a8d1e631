"""Views for whoever opens a catalogue with another tool: plain names, units in column names.

Made anew from the fields of the parts whenever a file is brought to the newest layout; nothing in
the program reads them.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import Field
from typing import TYPE_CHECKING, Any, Final, NamedTuple

from catalogue.layout import LISTS, SHARED, described, list_columns
from catalogue.parts import KINDS

if TYPE_CHECKING:
    from sqlite_utils import Database

#: Dimension -> what follows the column's name, and how many of the unit one SI unit is.
UNITS: Final[dict[str, tuple[str, float]]] = {
    "current": ("A", 1),
    "voltage": ("V", 1),
    "let_through": ("A2s", 1),
    "resistance": ("ohm", 1),
    "resistance_per_length": ("ohm_per_m", 1),
    "temperature": ("degC", 1),
    "time": ("s", 1),
    "factor": ("share", 1),
    "area": ("mm2", 1e6),
    "length": ("mm", 1e3),
    "charge": ("Ah", 1 / 3600),
}
NAMES: Final = {
    "fuse": "fuses", "breaker": "breakers", "cable": "cables", "busbar": "busbars",
    "disconnect": "disconnects", "channel": "channels", "battery": "batteries",
}  # fmt: skip
_LIST_NAMES: Final = {
    "interrupt_rating": "interrupt_ratings", "intermittent": "intermittent_ratings",
    "derating": "deratings", "curve_point": "curve_points",
}  # fmt: skip
_UNIT_OF: Final = {"current": "current", "voltage": "voltage", "time": "time",
                   "temperature": "temperature", "factor": "factor"}  # fmt: skip


class Column(NamedTuple):
    """One column of a view: its name, the SQL that makes it, what it means."""

    name: str
    sql: str
    meaning: str


class View(NamedTuple):
    """One view: what a row of it is, where its rows come from, its columns."""

    name: str
    meaning: str
    source: str
    columns: tuple[Column, ...]

    @property
    def statement(self) -> str:
        """The SQL that makes it."""
        columns = ", ".join(f"{each.sql} AS {each.name}" for each in self.columns)
        return f"CREATE VIEW {self.name} AS SELECT {columns} FROM {self.source}"


def drop_views(db: Database) -> None:
    """Take every view away, inside the caller's transaction."""
    for view in every_view():
        db.execute(f"DROP VIEW IF EXISTS {view.name}")


def make_views(db: Database) -> None:
    """Make every view, inside the caller's transaction."""
    for view in every_view():
        db.execute(view.statement)


def every_view() -> tuple[View, ...]:
    """All views, in the order of their documentation."""
    lists = {LISTS[field.name]: field for kind in KINDS for field in described(kind)
             if field.name in LISTS}  # fmt: skip
    kinds = [_of_kind(kind) for kind in KINDS]
    return (*kinds, *(_of_list(*each) for each in lists.items()), _HISTORY)


def _of_kind(kind: str) -> View:
    own = (column for field in described(kind) if field.name not in SHARED
           for column in _columns(field))  # fmt: skip
    about = (
        Column(field.name, f"part.{field.name}", field.metadata["meaning"])
        for field in described(kind)
        if field.name in SHARED
    )
    columns = (Column("id", "part.id", "its name in the catalogue"), *about, *own)
    return View(
        NAMES[kind], f"one row a {kind} of now", f"{kind} JOIN part USING (key)", tuple(columns)
    )


def _columns(field: Field[Any]) -> Iterator[Column]:
    """The columns of one field in the table of its kind."""
    name, meta = field.name, field.metadata
    shape, meaning = meta["shape"], meta["meaning"]
    if shape == "curve":
        yield _flag(f"{name}_gates", "the points are a standard's gates, no line between them")
        if any(side == "average_melt" for _, side in meta["columns"]):
            yield _sized(f"{name}_tolerance", "factor", "of an average melting curve's current")
    elif name in LISTS:
        return
    elif shape == "quantity":
        yield _sized(name, meta["dimension"], meaning)
    elif shape == "band":
        for end, word in (("min", "least"), ("max", "largest")):
            yield _sized(f"{name}_{end}", meta["dimension"], f"{meaning}: {word}")
    elif shape == "mapping":
        for column, dimension in meta["columns"]:
            yield _sized(f"{name}_{column}", dimension, f"{meaning}: {column}")
    elif shape == "discharge":
        yield _sized(f"{name}_continuous", "current", f"{meaning}: continuous")
        yield _sized(f"{name}_peak_current", "current", f"{meaning}: for a short time")
        yield _sized(f"{name}_peak_time", "time", f"{meaning}: that time")
    elif shape == "flag":
        yield _flag(name, meaning)
    else:
        yield Column(name, name, meaning)


def _sized(name: str, dimension: str, meaning: str) -> Column:
    unit, size = UNITS[dimension]
    # Rounded where it is scaled: 9.5e-05 m² is 95 mm², not 95.00000000000001.
    sql = name if size == 1 else f"round({name} * {size!r}, 9)"
    return Column(f"{name}_{unit}", sql, meaning)


def _flag(name: str, meaning: str) -> Column:
    sql = f"iif({name} IS NULL, NULL, iif({name}, 'yes', 'no'))"
    return Column(name, sql, f"{meaning}: yes/no")


def _of_list(table: str, field: Field[Any]) -> View:
    own = [
        Column("side", "side", "fastest, slowest or average_melt")
        if name == "side"
        else _sized(name, _UNIT_OF[name], _MEANINGS[name])
        for name in list_columns(field)
    ]
    columns = (
        Column("id", "part.id", "the part's id"),
        Column("kind", "part.kind", "the part's kind"),
        Column("row_number", "position + 1", "its place in the list, from 1"),
        *own,
    )
    meaning = f"one row each of {field.name}: {field.metadata['meaning']}"
    return View(_LIST_NAMES[table], meaning, f"{table} JOIN part ON key = part_key", columns)


_MEANINGS: Final = {
    "current": "current", "voltage": "DC voltage", "time": "time",
    "temperature": "ambient temperature", "factor": "share of the rating",
}  # fmt: skip
_HISTORY: Final = View(
    "history",
    "one row a state that a part was ever in; nothing here is altered or deleted",
    "revision JOIN change ON change.number = revision.change",
    (
        Column("id", "part_id", "the part's id"),
        Column("revision", "revision.number", "number of the state, from 1"),
        Column("changed_at_UTC", "changed_at", "when it was entered"),
        Column("changed_by", "changed_by", "who entered it"),
        Column("why", "why", "for what reason"),
        Column("change", "change.number", "the command that entered it, with others perhaps"),
        Column("status", "status", "draft, reviewed, retired or removed"),
        Column("document", "document", "document the ratings were read in"),
        Column("page", "page", "page, table or clause in the document"),
        Column("whole_part_json", "body", "the whole part, as canonical JSON"),
        Column("sha256", "sha256", "SHA-256 of that JSON, in UTF-8"),
    ),
)
