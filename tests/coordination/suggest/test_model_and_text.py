"""What is judged in memory is what would be read from the text: changes of the demo systems."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from catalogue.store import open_catalogue
from coordination.checking import Request, prepare
from coordination.model import Element, System
from coordination.reading import read_bytes
from coordination.reading.lookups import DEFAULT_PLACE
from coordination.reading.own_parts import own_parts
from coordination.suggest.change import Change
from coordination.suggest.document import Document
from coordination.suggest.edited import edited
from coordination.suggest.editing import edited_text
from coordination.suggest.judging import Bench, Limit
from coordination.suggest.moves import Moves
from coordination.suggest.shelf import Shelf
from tests.coordination.suggest.conftest import Kit


def _plain(system: System) -> Any:
    """The model without lines and texts as written, which only the file has."""
    bars = [(bar.name, bar.part.id) for bar in system.busbars.values()]
    return [_of_element(each) for each in system.elements()], bars


def _of_element(element: Element) -> Any:
    back = element.return_path
    parts = [part.id if part is not None else None for part in (element.part, back.part)]
    bare = replace(back, line=0, written={}, part=None)
    place = replace(element.place, line=0)
    bare_element = replace(
        element, line=0, written={}, part=None, return_path=bare, place=place
    )
    return bare_element, parts


def _kept(changes: list[Change]) -> list[Change]:
    """Of the parts for one place only the first: they are written alike."""
    first: dict[object, Change] = {}
    for each in changes:
        kind = each.part.kind if each.part is not None else ""
        first.setdefault((each.sort, each.subject, each.index, each.text, kind), each)
    return list(first.values())


@pytest.mark.parametrize("name", ["van", "tender", "cabin"])
def test_model_and_text_are_changed_alike(kit: Kit, name: str) -> None:
    path = kit.demo(name)
    data, request = path.read_bytes(), Request(str(path))
    system, packs = prepare(request)
    document = Document(data, str(path))
    places = {
        circuit: system.places[place] if place else DEFAULT_PLACE
        for circuit, place in document.circuits()
    }
    with open_catalogue() as catalogue:
        bench = Bench(request, system, packs, places, Limit(1, 1))
        shelf = Shelf(own_parts(data, str(path), catalogue), catalogue)
        moves = Moves(bench, document, shelf, 0.25)
        names = [each.name for each in system.elements()] + list(system.busbars)
        changes = _kept([each for one in names for each in moves.at(one, guard=True)])
        sorts = {each.sort for each in changes}
        assert {"part", "device", "cable", "length"} <= sorts
        for change in changes:
            text = edited_text(document, system, frozenset((change,)))
            read = read_bytes(text.encode(), str(path), catalogue)
            made = edited(system, frozenset((change,)), places).system
            for one, other in zip(_plain(read)[0], _plain(made)[0], strict=True):
                assert one == other, change
            assert _plain(read)[1] == _plain(made)[1], change
