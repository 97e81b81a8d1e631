"""How each kind of single value is read: text at a place to a value, or None and a note.

Every function takes (reader, node, slot), notes what is wrong, and puts each quantity's text
under the slot's path into `written`.
"""

from __future__ import annotations

from datetime import date
from typing import Final

from catalogue.quantities import QuantityError, parse
from coordination.reading.nodes import Broken, Listing, Node, Scalar
from coordination.reading.reader import Reader, Slot
from coordination.reading.text import quoted

_FLAGS: Final = {"yes": True, "true": True, "no": False, "false": False}
_WHOLE: Final = "a whole number from 1 to 1000"
#: What a free text may hold although Python does not call it printable.
_FREE: Final = frozenset("\n\t\u00a0\u2009\u202f")


def scalar(reader: Reader, node: Node, slot: Slot, wanted: str) -> str | None:
    """The text of a scalar that says something; else None, noted with what is `wanted`."""
    if node.__class__ is Scalar:
        if not node.nothing():
            return node.text
        reader.notes.say(node, f"{slot.shown} has no value", wanted)
    elif not isinstance(node, Broken):
        what = "a list" if isinstance(node, Listing) else "a mapping"
        reader.notes.say(node, f"{slot.shown} cannot be {what}", wanted)
    return None


def read_quantity(reader: Reader, node: Node, slot: Slot) -> float | None:
    """A number with a unit, in SI, within the field's limits."""
    text = scalar(reader, node, slot, "a number with a unit")
    # Telling what is wrong with a text is slow; past a point nobody is told any more.
    if text is None or reader.notes.full():
        return None
    try:
        value = parse(text, slot.field.dimension)
    except QuantityError as error:
        _note_quantity(reader, node, slot, error)
        return None
    limits = slot.field.limits
    if limits is not None and not limits.low <= value <= limits.high:
        reader.notes.say(node, f"{slot.shown}: {quoted(text)} is out of range", limits.words)
        return None
    slot.written[slot.path] = text
    return value


def _note_quantity(reader: Reader, node: Node, slot: Slot, error: QuantityError) -> None:
    """Note what is no quantity; "did you mean 5 kA?" becomes the near miss."""
    hint, near = error.hint, ""
    if hint.startswith("did you mean "):
        hint, near = "", hint.removeprefix("did you mean ").rstrip("?")
    what = error.message + (f"; {hint}" if hint else "")
    if not what.startswith(slot.path + " "):
        what = f"{slot.shown}: {what}"
    reader.notes.say(node, what, near_miss=near)


def read_text(reader: Reader, node: Node, slot: Slot) -> str | None:
    """A free text, which must be possible to show."""
    text = scalar(reader, node, slot, "a text")
    if text is None:
        return None
    if not text.strip():
        reader.notes.say(node, f"{slot.shown} is empty", slot.field.meaning)
        return None
    if text.isprintable():
        return text
    odd = next((c for c in text if not c.isprintable() and c not in _FREE), "")
    if odd:
        what = f"{slot.shown} holds U+{ord(odd):04X}, which does not show"
        reader.notes.say(node, what, "printable text")
        return None
    return text


def read_flag(reader: Reader, node: Node, slot: Slot) -> bool | None:
    """yes or no."""
    text = scalar(reader, node, slot, "yes, no")
    if text is None:
        return None
    value = _FLAGS.get(text.lower())
    if value is None:
        reader.notes.say(node, f"{slot.shown} cannot be {quoted(text)}", "yes, no")
    return value


def read_whole(reader: Reader, node: Node, slot: Slot) -> int | None:
    """A whole number from 1 to 1000."""
    text = scalar(reader, node, slot, _WHOLE)
    if text is None:
        return None
    if text.isascii() and text.isdigit() and len(text) <= 4 and 1 <= int(text) <= 1000:
        return int(text)
    reader.notes.say(node, f"{slot.shown} cannot be {quoted(text)}", _WHOLE)
    return None


def read_choice(reader: Reader, node: Node, slot: Slot) -> str | None:
    """One of the field's words."""
    choices = slot.field.choices
    text = scalar(reader, node, slot, ", ".join(choices))
    if text is None or text in choices:
        return text
    near = reader.notes.nearest(text, choices)
    reader.notes.say(node, f"{slot.shown} cannot be {quoted(text)}", ", ".join(choices), near)
    return None


def read_date(reader: Reader, node: Node, slot: Slot) -> str | None:
    """A date as YYYY-MM-DD, kept as text."""
    text = scalar(reader, node, slot, "YYYY-MM-DD")
    if text is None:
        return None
    try:
        if len(text) == 10 and date.fromisoformat(text).isoformat() == text:
            return text
    except ValueError:
        pass
    reader.notes.say(node, f"{slot.shown}: {quoted(text)} is no date", "YYYY-MM-DD")
    return None


def read_name(reader: Reader, node: Node, slot: Slot) -> str | None:
    """The name of something in the file, checked when all of it is read."""
    text = scalar(reader, node, slot, slot.field.meaning)
    if text is not None:
        reader.references.use(text, slot.field.role, node)
    return text


def read_names(reader: Reader, node: Node, slot: Slot) -> tuple[str, ...]:
    """A list of such names, each once."""
    return _each_once(reader, slot, [(item, read_name(reader, item, slot))
                                     for item in reader.items(node, slot.path, "name")])


def read_texts(reader: Reader, node: Node, slot: Slot) -> tuple[str, ...] | None:
    """A list of texts, each once and at least one."""
    items = reader.items(node, slot.path, "name")
    if isinstance(node, Listing) and not items:
        reader.notes.say(node, f"{slot.shown} is empty", slot.field.meaning)
    found = [(item, read_text(reader, item, slot)) for item in items]
    return _each_once(reader, slot, found) or None


def _each_once(
    reader: Reader, slot: Slot, found: list[tuple[Node, str | None]]
) -> tuple[str, ...]:
    """The texts that could be read; a repeated one is noted."""
    kept: dict[str, None] = {}
    for item, text in found:
        if text is not None and text in kept:
            reader.notes.say(item, f"{quoted(text)} stands twice in {slot.shown}", "each once")
        elif text is not None:
            kept[text] = None
    return tuple(kept)
