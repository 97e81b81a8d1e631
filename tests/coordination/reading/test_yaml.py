"""Of YAML only mappings, lists and texts are left; text is never anything but text."""

from __future__ import annotations

import pytest
import yaml

from coordination.errors import BadInput
from coordination.reading import nodes
from coordination.reading.nodes import Listing, Scalar, Table, tree
from coordination.reading.notes import Notes


def _plain(node):
    if isinstance(node, Table):
        return {key: _plain(value) for key, (_, value) in node.entries.items()}
    if isinstance(node, Listing):
        return [_plain(item) for item in node.items]
    return node.text


@pytest.mark.parametrize(
    "text", ["yes", "null", "1.5", "0x1F", "1_000", "2026-03-02", ".inf", "1:30", "0o7", "~", "1e3"]
)
def test_plain_scalars_stay_as_written(text):
    root = tree(f"key: {text}\nlist: [{text}]\n", Notes("f"))
    assert _plain(root) == {"key": text, "list": [text]}


def test_places_are_one_based_and_count_characters():
    root = tree("größe:\n  - {länge: 1 µΩ}\n", Notes("f"))
    (key, value) = root.entries["größe"]
    assert (key.line, key.column) == (1, 1)
    mapping = value.items[0]
    assert (mapping.line, mapping.column) == (2, 5)
    assert (mapping.entries["länge"][1].line, mapping.entries["länge"][1].column) == (2, 13)


def test_quoted_and_folded_texts():
    root = tree("a: 'it''s'\nb: >-\n  two\n  words\nc: |\n  lines\n", Notes("f"))
    assert _plain(root) == {"a": "it's", "b": "two words", "c": "lines\n"}


@pytest.mark.parametrize(
    ("text", "place", "said"),
    [
        ("a: &x 1\n", (1, 4), "anchor '&x' is not allowed"),
        ("a: &x {b: 1}\n", (1, 4), "anchor '&x' is not allowed"),
        ("a: *x\n", (1, 4), "alias '*x' is not allowed"),
        ("a: !!int 1\n", (1, 4), "tag 'tag:yaml.org,2002:int' is not allowed"),
        ("a: !!python/object/apply:os.system [ls]\n", (1, 4),
         "tag 'tag:yaml.org,2002:python/object/apply:os.system' is not allowed"),
        ("a: !own {b: 1}\n", (1, 4), "tag '!own' is not allowed"),
        ("<<: {b: 1}\n", (1, 1), "merge key '<<' is not allowed"),
        ("a: 1\na: 2\n", (2, 1), "duplicate key 'a'; it stands in line 1 already"),
        ("a: {b: 1, 'b': 2}\n", (1, 11), "duplicate key 'b'; it stands in line 1 already"),
        ("? {a: 1}\n: 2\n", (1, 3), "a key must be a text, not a list or a mapping"),
        ("[a]: 2\n", (1, 1), "a key must be a text, not a list or a mapping"),
        ("?\n: 2\n", (1, 2), "a key is missing before ':'"),
        ("~: 2\n", (1, 1), "a key is missing before ':'"),
        ("*x : 2\n", (1, 1), "alias '*x' is not allowed"),
        ("a: 1\n---\nb: 1\n", (2, 1), "a second document begins here"),
    ],
)
def test_what_is_not_allowed_is_noted_with_its_place(text, place, said):
    notes = Notes("f")
    tree(text, notes)
    with pytest.raises(BadInput) as caught:
        notes.raise_if_any()
    (problem,) = caught.value.problems
    assert (problem.line, problem.column, problem.what) == (*place, said)


@pytest.mark.parametrize(
    ("text", "place", "said"),
    [
        ("", (0, 0), "the file is empty"),
        ("# nothing\n", (0, 0), "the file is empty"),
        ("a: 'b\n", (2, 1), "the file ends inside a quoted text"),
        ("a: [b\n", (2, 1), "a ',' or the closing ']' is missing"),
        ("a: {b: 1\n", (2, 1), "a ',' or the closing '}' is missing"),
        ("a: b: c\n", (1, 5), "a ':' is not expected here; check the indentation"),
        ("a:\n\tb: 1\n", (2, 1), "a tab cannot indent; use blanks"),
        ("a: @b\n", (1, 4), "a text cannot begin with this character; quote it"),
        ('a: "\\q"\n', (1, 5), "unknown escape after '\\'; single quotes take it as it is"),
        ('a: "\\ud800"\n', (1, 7), "the escape stands for no character that a text can hold"),
    ],
)
def test_broken_syntax_in_plain_words(text, place, said):
    with pytest.raises(BadInput) as caught:
        tree(text, Notes("f"))
    (problem,) = caught.value.problems
    assert (problem.line, problem.column, problem.what) == (*place, said)


def test_the_parser_in_python_reads_the_same(good, monkeypatch):
    """Where PyYAML came without its C half."""
    fast = tree(good, Notes("f"))
    monkeypatch.setattr(nodes, "_LOADER", yaml.SafeLoader)
    slow = tree(good, Notes("f"))
    assert _plain(slow) == _plain(fast)
    assert _places(slow) == _places(fast)


def _places(node):
    if isinstance(node, Scalar):
        return [(node.line, node.column)]
    if isinstance(node, Listing):
        inner = node.items
    else:
        inner = [part for entry in node.entries.values() for part in entry]
    return [(node.line, node.column), *(place for item in inner for place in _places(item))]


@pytest.mark.parametrize("text", ["[" * 10_000, "- " * 10_000, "{a: " * 10_000, "? " * 10_000])
def test_the_parser_in_python_survives_deep_nesting(text, monkeypatch):
    monkeypatch.setattr(nodes, "_LOADER", yaml.SafeLoader)
    with pytest.raises(BadInput) as caught:
        tree(text, Notes("f"))
    assert "nesting is deeper than 32 levels" in caught.value.problems[0].what
