"""The JSON Schema of the system file, made from the tables that the reader itself uses.

For editors: completion and early warnings. It knows shapes and words, not what a name refers to,
nor units beyond "a number and a unit"; `read` is what decides.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, Final

from catalogue.parts import KINDS
from catalogue.units import WANTED
from coordination.reading.fields import (
    CURVE_POINT,
    Field,
    FieldTable,
    column_field,
    curve_fields,
    part_table,
)
from coordination.reading.system_fields import ELEMENTS, LIMITED_ONLY, SYSTEM

Schema = dict[str, Any]

#: A number, perhaps with a fraction, and a unit: "0.6 m", "1 3/8 in", "4/0 AWG"; no decimal comma.
_QUANTITY: Final = r"^\s*[+\-−]?(\d+\.?\d*|\.\d+)([eE][+\-]?\d+)?([ \-]\d+/\d+)?\s*[^\d\s.,+\-].*$"
_NAME: Final[Schema] = {"pattern": r"^\S(.*\S)?$", "maxLength": 100}
#: A text may look like a number, a flag or a date to an editor that reads plain YAML.
_TEXT: Final[Schema] = {"type": ["string", "number", "boolean"]}
#: Fields that packs add to parts; which there are depends on the packs.
_OF_PACKS: Final[Schema] = {"patternProperties": {r"^[a-z0-9_]+\.[a-z0-9_]+$": {}}}


def system_schema() -> Schema:
    """The schema, as data for json.dumps."""
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": "Fusewright system file",
        "description": "One low-voltage DC installation: what feeds, what joins, what protects.",
        "type": "object",
        "properties": {
            key: _top(key, field)
            for key, field in SYSTEM.fields.items()
        },
        "required": list(SYSTEM.required),
        "additionalProperties": False,
        "$defs": {
            **{f"part-{kind}": _object(_with_kind(kind)) | _OF_PACKS for kind in KINDS},
            **{f"element-{kind}": _object(table) for kind, table in ELEMENTS.items()},
        },
    }


def _with_kind(kind: str) -> FieldTable:
    """The table of a part whose kind is that one word."""
    own = Field(shape="choice", meaning=f"a {kind}", choices=(kind,), required=True)
    return FieldTable({**part_table(kind).fields, "kind": own})


def _top(key: str, field: Field) -> Schema:
    """A top-level key; sections are mappings of named entries, waivers a list."""
    if field.shape != "section":
        return _of(field)
    if key == "waivers":
        return {"type": ["array", "null"], "items": _of_table(field), "description": field.meaning}
    if key == "options":
        each: Schema = {"type": ["object", "null"]}
        return each | {"additionalProperties": each, "description": field.meaning}
    entry = _any_part() if field.table is None else _of_table(field)
    if key == "sources":
        entry |= _battery_or_limited()
    section: Schema = {
        "type": "object" if field.required else ["object", "null"],
        "description": field.meaning,
        "propertyNames": _NAME,
        "additionalProperties": entry,
    }
    return section | ({"minProperties": 1} if field.required else {})


def _any_part() -> Schema:
    """A part, by its kind."""
    kinds: Schema = {"enum": list(KINDS), "description": "what kind of part it is"}
    by_kind = [
        {
            "if": {"properties": {"kind": {"const": kind}}, "required": ["kind"]},
            "then": {"$ref": f"#/$defs/part-{kind}"},
        }
        for kind in KINDS
    ]
    return {"type": "object", "required": ["kind"], "properties": {"kind": kinds}, "allOf": by_kind}


def _battery_or_limited() -> Schema:
    limited = ["current_limited", "voltage"]
    neither = {"not": {"anyOf": [{"required": [key]} for key in LIMITED_ONLY]}}
    return {
        "oneOf": [
            {"required": ["part"], **neither},
            {"required": limited, "not": {"required": ["part"]}},
        ]
    }


def _object(table: FieldTable) -> Schema:
    """A mapping with the fields of a table."""
    schema: Schema = {
        "type": "object" if table.required else ["object", "null"],
        "properties": {key: _of(field) for key, field in table.fields.items()},
        "additionalProperties": False,
    }
    return schema | ({"required": list(table.required)} if table.required else {})


def _of(field: Field) -> Schema:
    """One field, with its meaning."""
    schema = _SHAPES[field.shape](field)
    return {**schema, "description": schema.get("description", field.meaning)}


def _quantity(field: Field) -> Schema:
    wanted = WANTED[field.dimension]
    bounds = f" ({field.limits.words})" if field.limits else ""
    schema: Schema = {
        "type": "string",
        "pattern": _QUANTITY,
        "description": f"{field.meaning}{bounds}; {wanted}",
    }
    if field.dimension == "factor":
        schema = {"anyOf": [{"type": "number"}, schema | {"pattern": r"^\s*[\d.]"}]}
    return schema


def _columns(field: Field) -> Schema:
    """A mapping that must have all of the field's columns."""
    columns = {name: _quantity(column_field(name, dimension)) for name, dimension in field.columns}
    return {
        "type": "object",
        "properties": columns,
        "required": list(columns),
        "additionalProperties": False,
    }


def _pairs(field: Field) -> Schema:
    cells = [_quantity(column_field(name, dimension)) for name, dimension in field.columns]
    pair = {"type": "array", "prefixItems": cells, "items": False, "minItems": 2}
    return {"type": ["array", "null"], "items": pair}


def _band(field: Field) -> Schema:
    one = _quantity(field)
    both = {
        "type": "object",
        "properties": {"min": one, "max": one},
        "required": ["min", "max"],
        "additionalProperties": False,
    }
    return {"anyOf": [one, both]}


def _curve(field: Field) -> Schema:
    inner = {key: _of(own) for key, own in curve_fields(field).items()}
    return {"type": "object", "properties": inner, "additionalProperties": False}


def _discharge(_: Field) -> Schema:
    sides = {
        "continuous": _quantity(column_field("continuous", "current")),
        "peak": _columns(Field(shape="mapping", meaning="", columns=CURVE_POINT)),
    }
    return {"type": "object", "properties": sides, "additionalProperties": False}


def _flag(_: Field) -> Schema:
    return {"anyOf": [{"type": "boolean"}, {"enum": ["yes", "no", "true", "false"]}]}


def _whole(_: Field) -> Schema:
    number = {"type": "integer", "minimum": 1, "maximum": 1000}
    return {"anyOf": [number, {"type": "string", "pattern": "^[0-9]{1,4}$"}]}


def _of_table(field: Field) -> Schema:
    return _object(field.table) if field.table else {}


def _return(field: Field) -> Schema:
    own = _of_table(field)
    ways = [
        {"required": ["resistance"], "properties": {"resistance": {}}, "maxProperties": 1},
        {"required": ["cable"], "not": {"required": ["resistance"]}},
    ]
    return {"anyOf": [{"const": "none"}, own | {"type": "object", "oneOf": ways}]}


def _elements(_: Field) -> Schema:
    kinds = [{"$ref": f"#/$defs/element-{kind}"} for kind in ELEMENTS]
    return {"type": "array", "minItems": 1, "items": {"oneOf": kinds}}


def _shares(field: Field) -> Schema:
    return {"type": ["object", "null"], "additionalProperties": _quantity(field)}


def _text(_: Field) -> Schema:
    return dict(_TEXT)


def _list_of_texts(_: Field) -> Schema:
    return {"type": ["array", "null"], "items": dict(_TEXT), "uniqueItems": True}


#: Shape of a field -> what describes it; the counterpart of `records.SHAPES`.
_SHAPES: Final[Mapping[str, Callable[[Field], Schema]]] = {
    "quantity": _quantity,
    "band": _band,
    "mappings": lambda field: {"type": ["array", "null"], "items": _columns(field)},
    "pairs": _pairs,
    "mapping": _columns,
    "curve": _curve,
    "discharge": _discharge,
    "text": _text,
    "choice": lambda field: {"enum": list(field.choices)},
    "flag": _flag,
    "whole": _whole,
    "date": lambda _: {"type": "string", "pattern": r"^\d{4}-\d{2}-\d{2}$"},
    "name": _text,
    "names": _list_of_texts,
    "texts": _list_of_texts,
    "place": _text,
    "part": _text,
    "record": _of_table,
    "elements": _elements,
    "return": _return,
    "shares": _shares,
}
