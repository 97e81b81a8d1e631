"""The section `parts:`: one-off parts, read by the field metadata of `catalogue.parts`.

Derives what the file states in another form: a wire gauge becomes an area, a battery's single
resistance the band that is usual for it. A declared short-circuit current stays as declared.
"""

from __future__ import annotations

from typing import Any, Final

from catalogue.parts import KINDS
from catalogue.quantities import GAUGE_TOLERANCE, QuantityError, awg_area
from catalogue.records import Band
from coordination.reading.fields import FieldTable, part_table
from coordination.reading.nodes import Broken, Node, Scalar, Table
from coordination.reading.part_checks import check_part
from coordination.reading.reader import Reader, Written
from coordination.reading.records import read_record
from coordination.reading.text import quoted
from coordination.reading.vocabulary import NO_WORDS, Vocabulary, known_entries

#: Share by which a battery's resistance may lie under and over a single stated value.
BAND_UNDER: Final = 0.15
BAND_OVER: Final = 0.60
#: How a band that was widened so is marked in `written["resistance.assumed"]`.
ASSUMED: Final = "-15 % / +60 %"


def read_parts(reader: Reader, node: Node, words: Vocabulary = NO_WORDS) -> None:
    """Read the section into `reader.parts`; ids whose kind is unclear are `spoilt`."""
    for part_id, key, value in reader.named(node, ""):
        kind = _kind(reader, key, value)
        if not kind:
            reader.spoilt.add(part_id)
            continue
        written: Written = {}
        more = words.part_fields.get(kind, {})
        table = FieldTable({**part_table(kind).fields, **more}) if more else part_table(kind)
        values = read_record(reader, key, known_entries(value, words), table, written)
        extra = {name: values.pop(name) for name in more if name in values}
        if isinstance(value, Table):
            _derive(reader, value, kind, values, written)
            check_part(reader, value, kind, values)
        values["kind"] = kind
        reader.parts[part_id] = KINDS[kind](
            id=part_id, line=key.line, written=written, extra=extra, **values
        )


def _kind(reader: Reader, key: Scalar, node: Node) -> str:
    """The part's kind; empty (and noted) if it cannot be told."""
    if isinstance(node, Broken):
        return ""
    entries = reader.entries(node)
    if entries is None:
        return ""
    if "kind" not in entries:
        reader.notes.say(key, f"part {quoted(key.text)} has no kind", ", ".join(KINDS))
        return ""
    stated = entries["kind"][1]
    text = stated.text if isinstance(stated, Scalar) else ""
    if text in KINDS:
        return text
    if not isinstance(stated, Broken):
        near = reader.notes.nearest(text, KINDS)
        reader.notes.say(stated, f"kind cannot be {quoted(text)}", ", ".join(KINDS), near)
    return ""


def _derive(
    reader: Reader, node: Table, kind: str, values: dict[str, Any], written: Written
) -> None:
    """Add what follows from how the part was stated."""
    if kind == "cable" and "awg" in values:
        _area_of_gauge(reader, node, values, written)
    if kind == "battery" and "resistance" in written and "resistance" in values:
        stated = values["resistance"].min
        values["resistance"] = Band(stated * (1 - BAND_UNDER), stated * (1 + BAND_OVER))
        del written["resistance.min"], written["resistance.max"]
        written["resistance.assumed"] = ASSUMED


def _area_of_gauge(
    reader: Reader, node: Table, values: dict[str, Any], written: Written
) -> None:
    """The area from the gauge; a stated one that differs by more than strandings contradicts it."""
    at = node.entries["awg"][1]
    values["awg"] = size = values["awg"].removesuffix("AWG").strip()
    try:
        area = awg_area(size)
    except QuantityError as error:
        reader.notes.say(at, f"awg: {error.message}; {error.hint}")
        return
    written["awg"] = size
    stated = values.setdefault("area", area)
    if abs(stated - area) > GAUGE_TOLERANCE * area:
        what = f"{size} AWG is {area * 1e6:.4g} mm², but area says {quoted(written['area'])}"
        within = f"{GAUGE_TOLERANCE * 100:g} %"
        reader.notes.say(at, what, f"one of awg and area, or the two within {within}")
