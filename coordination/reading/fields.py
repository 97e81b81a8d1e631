"""One entry of the system file as data: its shape, what it measures, what it means.

Reader, messages and JSON Schema all work from these tables. The fields of parts are not listed
here: `part_table` makes them from the dataclasses of `catalogue.parts`, the only list there is.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import fields
from functools import cache
from typing import NamedTuple

from catalogue.described import IN_FILES_ONLY
from catalogue.layout import BETWEEN
from catalogue.parts import KINDS
from coordination.reading.limits import LIMITS, PART_LIMITS, Limits


class Field(NamedTuple):
    """What may stand under one key.

    shape     -- a key of `shapes.SHAPES`
    dimension -- of a quantity (a key of `catalogue.units.SI_UNITS`)
    limits    -- bounds of that quantity
    choices   -- words of a choice
    columns   -- (name, dimension) of a record's or a row's entries; (name, boundary) of a curve's
    role      -- of a name: what it must be the name of (`references.ROLES`), or "place"
    kinds     -- of a part: the kinds of part that fit
    table     -- of a record: its own fields
    """

    shape: str
    meaning: str
    required: bool = False
    dimension: str = ""
    limits: Limits | None = None
    choices: tuple[str, ...] = ()
    columns: tuple[tuple[str, str], ...] = ()
    role: str = ""
    kinds: tuple[str, ...] = ()
    table: FieldTable | None = None


class FieldTable:
    """The fields of one kind of entry.

    part_kind -- the kind of part that the entry names, whose fields cannot be set in place
    required  -- names of the required fields
    """

    __slots__ = ("fields", "part_kind", "required")

    def __init__(self, fields: Mapping[str, Field], part_kind: str = "") -> None:
        self.fields, self.part_kind = fields, part_kind
        self.required = tuple(name for name, field in fields.items() if field.required)


def quantity(
    dimension: str, meaning: str, *, required: bool = False, zero: bool = False,
    limits: Limits | None = None,
) -> Field:
    """A number with a unit, within the limits of its dimension; `zero` allows 0."""
    own = limits or LIMITS[dimension]
    return Field(
        shape="quantity", meaning=meaning, required=required, dimension=dimension,
        limits=own.or_zero() if zero else own,
    )


#: Columns of a point of a curve, and of a current for a time.
CURVE_POINT = (("current", "current"), ("time", "time"))


def column_field(name: str, dimension: str) -> Field:
    """The field of one column of a row or a record of a part."""
    limits = PART_LIMITS.get(name) or LIMITS[dimension]
    return Field(shape="quantity", meaning=name, dimension=dimension, limits=limits)


def curve_fields(curve: Field) -> dict[str, Field]:
    """What a curve may state: its lists of points, the tolerance of an average, what is between."""
    fields = {
        key: Field(shape="pairs", meaning=key, columns=CURVE_POINT) for key, _ in curve.columns
    }
    if "average_melt" in fields:
        limits = PART_LIMITS["tolerance"]
        fields["tolerance"] = quantity("factor", "of the average's current", limits=limits)
    fields["between"] = choice(BETWEEN, "a drawn line between the points, or a standard's gates")
    return fields


def text(meaning: str, *, required: bool = False) -> Field:
    """A free text on one or more lines."""
    return Field(shape="text", meaning=meaning, required=required)


def flag(meaning: str) -> Field:
    """yes or no."""
    return Field(shape="flag", meaning=meaning)


def whole(meaning: str) -> Field:
    """A whole number from 1."""
    return Field(shape="whole", meaning=meaning)


def choice(choices: tuple[str, ...], meaning: str, *, required: bool = False) -> Field:
    """One of a few words."""
    return Field(shape="choice", meaning=meaning, choices=choices, required=required)


def part(*kinds: str, meaning: str, required: bool = True) -> Field:
    """The id of a part of one of the kinds, in the file's `parts:` or in the catalogue."""
    return Field(shape="part", meaning=meaning, kinds=kinds, required=required)


def name(role: str, meaning: str, *, required: bool = False) -> Field:
    """The name of something else in the file."""
    return Field(shape="name", meaning=meaning, role=role, required=required)


def names(role: str, meaning: str) -> Field:
    """A list of names of other things in the file."""
    return Field(shape="names", meaning=meaning, role=role)


def record(entries: Mapping[str, Field], meaning: str) -> Field:
    """A mapping with fields of its own."""
    return Field(shape="record", meaning=meaning, table=FieldTable(entries))


@cache
def part_table(kind: str) -> FieldTable:
    """The fields of a one-off part of `kind`, from the metadata of its dataclass."""
    entries = {"kind": choice(tuple(KINDS), "what kind of part it is", required=True)}
    for field in fields(KINDS[kind]):
        if "shape" in field.metadata:
            entries[field.name] = _part_field(kind, field.name, field.metadata)
    return FieldTable(entries)


def _part_field(kind: str, name: str, metadata: Mapping[str, object]) -> Field:
    """The field that a part dataclass describes by its metadata."""
    known = {key: value for key, value in metadata.items() if key != IN_FILES_ONLY}
    limits = None
    if "dimension" in known:
        limits = PART_LIMITS.get(name) or LIMITS[str(known["dimension"])]
        if known["shape"] == "band" and known["dimension"] == "resistance" and kind != "battery":
            limits = limits.or_zero()
    return Field(limits=limits, **{key: known[key] for key in known})  # type: ignore[arg-type]

