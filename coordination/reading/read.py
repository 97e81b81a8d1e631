"""The stage file -> model: reads one system file, and tells all that is wrong in it."""

from __future__ import annotations

from coordination.errors import BadInput
from coordination.model import System
from coordination.reading.circuits import read_circuits
from coordination.reading.conditions import read_conditions, read_waivers
from coordination.reading.nodes import Node, Scalar, Table, tree
from coordination.reading.notes import Notes, name_problem
from coordination.reading.parts import read_parts
from coordination.reading.reader import Catalogue, Reader, Written
from coordination.reading.records import read_record
from coordination.reading.seal import sealed
from coordination.reading.shore import read_ac_loads, read_shore
from coordination.reading.system_fields import DEFAULT_PACKS, SYSTEM
from coordination.reading.text import decode, read_file
from coordination.reading.things import (
    read_busbars,
    read_converters,
    read_equipment,
    read_places,
    read_sources,
)
from coordination.reading.vocabulary import NO_WORDS, Speak, read_options
from coordination.reading.whole import check_whole

_NOTHING = Scalar("", 0, 0)


def read(path: str, catalogue: Catalogue, speak: Speak | None = None) -> System:
    """The system that the file at `path` describes, with parts of its own or of `catalogue`.

    speak -- gives the words of the packs that the file names; None: they bring none
    Raises BadInput with every problem of the file.
    """
    return read_bytes(read_file(path), path, catalogue, speak)


def read_bytes(
    data: bytes, file: str, catalogue: Catalogue, speak: Speak | None = None
) -> System:
    """The same for a file's content; `file` names it in problems."""
    notes = Notes(file)
    root = tree(decode(data, file), notes)
    if not isinstance(root, Table):
        notes.say(root, "the file does not consist of keys and values", ", ".join(SYSTEM.fields))
        notes.raise_if_any()
        raise BadInput(())
    reader = Reader(notes, catalogue)
    system = _read_sections(reader, root, speak)
    check_whole(reader, system)
    notes.raise_if_any()
    return sealed(system)


def _misspelt(reader: Reader, root: Table) -> dict[str, Node]:
    """Sections under a key that is nearly theirs: read too, so that their names are known."""
    found: dict[str, Node] = {}
    for key, (_, node) in root.entries.items():
        if key not in SYSTEM.fields:
            near = reader.notes.nearest(key, SYSTEM.fields)
            if near and SYSTEM.fields[near].shape == "section":
                found[near] = node
    return found


def _read_sections(reader: Reader, root: Table, speak: Speak | None) -> System:
    """Every section, in the order in which they need one another."""
    written: Written = {}
    values = _misspelt(reader, root) | read_record(reader, root, root, SYSTEM, written)

    def section(key: str) -> Node:
        node: Node = values.get(key, _NOTHING)
        if key in ("sources", "circuits") and key in root.entries and not reader.entries(node):
            reader.notes.say(root.entries[key][0], f"{key} has no entries: nothing can be checked")
        return node

    if problem := name_problem(values.get("system", "x")):
        reader.notes.say(root.entries["system"][1], problem)
    packs: tuple[str, ...] = values.get("packs", DEFAULT_PACKS)
    words = speak(packs) if speak else NO_WORDS
    read_places(reader, section("places"))
    read_parts(reader, section("parts"), words)
    return System(
        name=values.get("system", ""),
        line=root.line,
        written=written,
        file=reader.notes.file,
        nominal_voltage=values.get("nominal_voltage"),
        packs=packs,
        ampacity_basis=values.get("ampacity"),
        places=reader.places,
        sources=read_sources(reader, section("sources")),
        busbars=read_busbars(reader, section("busbars")),
        equipment=read_equipment(reader, section("equipment")),
        converters=read_converters(reader, section("converters")),
        circuits=read_circuits(reader, section("circuits")),
        conditions=read_conditions(reader, section("conditions")),
        waivers=read_waivers(reader, section("waivers"), words),
        options=read_options(reader, section("options"), words, written),
        shore=read_shore(reader, section("shore")),
        ac_loads=read_ac_loads(reader, section("ac_loads")),
    )
