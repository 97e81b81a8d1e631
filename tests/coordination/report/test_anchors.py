"""Names of places in a document."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as some

from coordination.report.anchors import anchor

HOSTILE = (
    "<script>alert(1)</script>",
    '" onclick="x',
    "=cmd()|'/c calc'!A1",
    "\u202eevil",
    "\x1b[31mred",
    "ÄÖ Ω µ",
    "12 V",
    "",
    "\ud800",
    "a" * 500,
)


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("kind", ["finding", "device", "<x>", "", "1st"])
def test_only_clean_signs_come_out(kind: str, name: str) -> None:
    assert re.fullmatch(r"[a-z][a-z0-9-]{0,70}", anchor(kind, name))


def test_names_that_read_alike_stay_apart() -> None:
    names = ("port feed/1", "port feed 1", "Port Feed/1", "port-feed-1", "port  feed/1", "<>", "><")
    assert len({anchor("finding", name) for name in names}) == len(names)


def test_a_kind_and_a_name_do_not_flow_into_each_other() -> None:
    assert anchor("a", "b c") != anchor("a b", "c")


def test_the_same_place_has_the_same_name_in_every_run() -> None:
    # The standard library's BLAKE2s, 4 bytes, over both words and a zero between them.
    assert anchor("finding", "port feed/1") == "finding-port-feed-1-006f53ed"


@given(some.lists(some.tuples(some.text(max_size=8), some.text(max_size=8)), unique=True))
def test_different_things_have_different_places(things: list[tuple[str, str]]) -> None:
    clean = [thing for thing in things if "\0" not in "".join(thing)]
    assert len({anchor(*thing) for thing in clean}) == len(clean)
