"""How the two names are read that must already be known: a place, and a part by its id."""

from __future__ import annotations

from catalogue.parts import Part
from coordination.model import Place
from coordination.reading.nodes import Node
from coordination.reading.reader import Reader, Slot
from coordination.reading.scalars import scalar
from coordination.reading.text import quoted

#: Where things stand that state no place.
DEFAULT_PLACE = Place(name="default place", line=0)


def read_place(reader: Reader, node: Node, slot: Slot) -> Place | None:
    """The place of that name."""
    text = scalar(reader, node, slot, "a place under places:")
    if text is None:
        return None
    place = reader.places.get(text)
    if place is None:
        reader.notes.unknown(node, f"no place is named {quoted(text)}", text, reader.places)
    return place


def read_part(reader: Reader, node: Node, slot: Slot) -> Part | None:
    """The part of that id: one of the file's own, else of the catalogue; of a kind that fits."""
    wanted = " or ".join(slot.field.kinds)
    text = scalar(reader, node, slot, f"the id of a {wanted}")
    if text is None or text in reader.spoilt or reader.notes.full():
        return None
    part = reader.parts.get(text) or _from_catalogue(reader, text)
    if part is None:
        what = f"no part {quoted(text)} in parts: or in the catalogue"
        reader.notes.say(node, what, f"the id of a {wanted}", _near(reader, text, slot.field.kinds))
    elif part.kind not in slot.field.kinds:
        what = f"{quoted(text)} is a {part.kind}"
        reader.notes.say(node, what, f"the id of a {wanted}", _near(reader, text, slot.field.kinds))
        return None
    return part


def _from_catalogue(reader: Reader, part_id: str) -> Part | None:
    """The catalogue's part, asked once for each id."""
    if part_id not in reader.found:
        reader.found[part_id] = reader.catalogue.get(part_id)
    return reader.found[part_id]


def _near(reader: Reader, text: str, kinds: tuple[str, ...]) -> str:
    """The id most like `text` among the file's own parts and what the catalogue offers."""
    if reader.notes.tired():
        return ""
    own = [part.id for part in reader.parts.values() if part.kind in kinds]
    offered = (reader.catalogue.near(text[:100], kind) for kind in kinds)
    return reader.notes.nearest(text, (*own, *(near for near in offered if near)))
