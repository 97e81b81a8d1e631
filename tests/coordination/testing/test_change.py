"""System files are changed by path, and written back as people write them."""

from __future__ import annotations

import pytest

from coordination.testing.case import CaseError
from coordination.testing.change import changed, dump_text, leaves, load_text

TEXT = """
system: s
circuits:
  port feed:
    from: pack
    parts:
      - {fuse: f, distance: 120 mm}
      - {cable: c, length: 0.6 m, sheathed: yes}
"""


def test_texts_stay_as_they_were_written():
    tree = load_text(TEXT)
    assert tree["circuits"]["port feed"]["parts"][1]["sheathed"] == "yes"
    again = dump_text(tree)
    assert "sheathed: yes\n" in again
    assert "length: 0.6 m\n" in again
    assert load_text(again) == tree


@pytest.mark.parametrize("path", ["circuits.port feed.parts.1.length", "port feed/2.length"])
def test_a_field_is_set_by_path_or_by_the_name_of_its_element(path):
    tree = load_text(TEXT)
    new = changed(tree, {path: "9 m"}, ())
    assert new["circuits"]["port feed"]["parts"][1]["length"] == "9 m"
    assert tree["circuits"]["port feed"]["parts"][1]["length"] == "0.6 m"


def test_new_entries_and_rows_are_added():
    new = changed(load_text(TEXT), {"parts.x.kind": "fuse", "port feed/3": {"joint": "1 mΩ"}}, ())
    assert new["parts"] == {"x": {"kind": "fuse"}}
    assert new["circuits"]["port feed"]["parts"][2] == {"joint": "1 mΩ"}


def test_a_field_is_removed():
    new = changed(load_text(TEXT), {}, ("port feed/1.distance",))
    assert new["circuits"]["port feed"]["parts"][0] == {"fuse": "f"}


@pytest.mark.parametrize(
    ("changes", "removals"),
    [
        ({}, ("port feed/1.sheathed",)),
        ({}, ("circuits.other.from",)),
        ({"system.x": "1"}, ()),
        ({"port feed/9.length": "1 m"}, ()),
        ({"circuits.port feed.parts.first": "1 m"}, ()),
    ],
)
def test_a_wrong_path_is_an_error(changes, removals):
    with pytest.raises(CaseError):
        changed(load_text(TEXT), changes, removals)


def test_a_name_with_a_dot_is_found_where_it_exists():
    tree = load_text("parts: {cable-2.5: {area: 2.5 mm²}}")
    assert changed(tree, {"parts.cable-2.5.area": "4 mm²"}, ())["parts"] == {
        "cable-2.5": {"area": "4 mm²"}
    }
    assert changed(tree, {}, ("parts.cable-2.5",)) == {"parts": {}}
    assert changed(tree, {}, (("parts", "cable-2.5", "area"),)) == {"parts": {"cable-2.5": {}}}


def test_every_field_has_its_steps():
    steps = list(leaves(load_text("a: {b: [x, {c: 1}]}\nd: 2\n")))
    assert [".".join(each) for each in steps] == ["a", "a.b", "a.b.0", "a.b.1", "a.b.1.c", "d"]
