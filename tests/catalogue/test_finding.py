"""Finding parts by words and by figures, over the shop's parts and the generic ones."""

from __future__ import annotations

import pytest

from catalogue.errors import CatalogueError
from catalogue.finding.by_id import ids_from
from catalogue.finding.by_measure import Asked, find_by_measure
from catalogue.finding.by_words import find_by_words, matches
from catalogue.finding.conditions import bound, interrupt, where
from catalogue.parts import Band, Battery, Cable, CurrentFor, Disconnect, Fuse, InterruptRating
from catalogue.shop import add_parts
from catalogue.store import Store, open_catalogue


def rated(part_id, amps, *ratings, **values):
    rows = tuple(InterruptRating(volts, current) for volts, current in ratings)
    return Fuse(id=part_id, kind="fuse", rated_current=amps, interrupt_ratings=rows, **values)


@pytest.fixture
def own(tmp_path):
    """A shop whose parts shadow one generic fuse, and whose ratings lie apart from round ones."""
    path = str(tmp_path / "own.sqlite")
    add_parts(
        path,
        [
            rated("z-rows", 301.0, (14.0, 20e3), (32.0, 10e3), (58.0, 15e3), family="class-zz"),
            rated("z-none", 302.0),
            rated("fuse-t-300-dc", 303.0, (125.0, 5e3)),
            Disconnect(id="z-switch", kind="disconnect", rated_current=303.0,
                       resistance=Band(0.1e-3, 0.3e-3), withstand=CurrentFor(5e3, 1.0)),
            Cable(id="z-cable", kind="cable", area=50e-6),
            Battery(id="z-pack", kind="battery", capacity=230 * 3600.0, cells=8,
                    description="Größe Ω-pack"),
        ],
    )  # fmt: skip
    with open_catalogue(path) as catalogue:
        yield catalogue


def found(catalogue, kind, *conditions, **more):
    asked = Asked(kind, tuple(where(kind, text) for text in conditions), **more)
    return find_by_measure(catalogue, asked)


def test_an_interrupt_rating_counts_by_the_lowest_listed_voltage_that_is_no_less(own):
    # At 28.8 V the row of 32 V counts: 10 kA, neither the 20 kA of 14 V nor the 15 kA of 58 V.
    def fits(text):
        asked = Asked("fuse", (bound("fuse", "current", "=301 A"), interrupt("fuse", text)))
        return find_by_measure(own, asked) == ["z-rows"]

    assert fits(">=10 kA @ 28.8 V")
    assert not fits(">=12 kA @ 28.8 V")
    assert fits(">=12 kA @ 12 V")
    # 32 V itself is a listed voltage; past it the row of 58 V counts; past that none.
    assert fits(">=10 kA @ 32 V")
    assert not fits(">10 kA @ 32 V")
    assert fits(">=15 kA @ 32.1 V")
    assert not fits(">=1 A @ 58.1 V")


def test_a_part_that_states_nothing_is_not_found(own):
    assert "z-none" not in found(own, "fuse", "interrupt >= 1 A @ 12 V", limit=5000)
    assert found(own, "fuse", "rated_current = 302 A") == ["z-none"]


def test_the_shop_shadows_a_generic_part(own):
    assert "fuse-t-300-dc" not in found(own, "fuse", "rated_current = 300 A", limit=5000)
    assert found(own, "fuse", "rated_current = 303 A") == ["fuse-t-300-dc"]


def test_order_and_limit(own):
    near = ("rated_current >= 301 A", "rated_current <= 303 A")
    assert found(own, "fuse", *near) == ["z-rows", "z-none", "fuse-t-300-dc"]
    assert found(own, "fuse", *near, descending=True) == ["fuse-t-300-dc", "z-none", "z-rows"]
    assert len(found(own, "fuse", *near, limit=1)) == 2
    # Sorted by what one of them does not state: that one comes last.
    assert found(own, "fuse", *near, sort="clearing_i2t")[:3] == [
        "fuse-t-300-dc", "z-none", "z-rows",
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("kind", "text", "fits"),
    [
        ("disconnect", "resistance <= 0.3 mΩ", True),
        ("disconnect", "resistance <= 0.2 mΩ", False),
        ("disconnect", "resistance >= 0.1 mΩ", True),
        ("disconnect", "resistance >= 0.2 mΩ", False),
        ("disconnect", "resistance.max >= 0.2 mΩ", True),
        ("disconnect", "withstand.current >= 5 kA", True),
        ("disconnect", "current > 303 A", False),
        ("battery", "capacity = 230 Ah", True),
        ("battery", "capacity ≥ 0.23 kAh", True),
        ("battery", "cells = 8", True),
        ("battery", "cells < 8", False),
        ("cable", "area = 50 mm²", True),
        ("cable", "area <= 0.5 cm²", True),
    ],
)
def test_bounds_are_for_certain_and_units_are_any(own, kind, text, fits):
    mine = {"disconnect": "z-switch", "battery": "z-pack", "cable": "z-cable"}[kind]
    assert (mine in found(own, kind, text, limit=5000)) == fits


@pytest.mark.parametrize(
    ("kind", "text", "message"),
    [
        ("fuse", "rated_curent >= 3 A", "no measure 'rated_curent'; did you mean 'rated_current'"),
        ("fuse", "rated_current >= 3", "'3' has no unit"),
        ("fuse", "rated_current >= 3 V", "not volts"),
        ("fuse", "300 A", "is no condition"),
        ("cable", "interrupt >= 3 kA @ 32 V", "a cable has no interrupt ratings"),
        ("fuse", "interrupt >= 3 kA", "a rating counts at a voltage only"),
        ("fuse", "interrupt <= 3 kA @ 32 V", "at least so much"),
        ("battery", "cells >= many", "wants a whole number"),
        ("fuse", "family >= 3 A", "has no measure 'family'"),
        ("fuse", "id); DROP TABLE part; -- >= 3 A", "is no condition"),
    ],
)
def test_conditions_that_are_none(kind, text, message):
    with pytest.raises(CatalogueError) as caught:
        where(kind, text)
    assert message in str(caught.value)


def test_words_over_shop_and_generic_parts(own):
    assert find_by_words(own, ["class", "t", "300"]).ids == ["fuse-t-300"]
    assert find_by_words(own, ["class-zz"]).ids == ["z-rows"]
    assert find_by_words(own, ["größe ω"]).ids == ["z-pack"]
    assert find_by_words(own, ["z"], "battery").ids == ["z-pack"]
    assert find_by_words(own, ["disc z"]).ids == ["z-switch"]
    assert len(find_by_words(own, ["class t"], limit=5).ids) == 6


def test_near_misses_of_words_that_no_part_has(own):
    hits = find_by_words(own, ["fuze", "t", "300"])
    assert (hits.ids, hits.instead) == (["fuse-t-300", "fuse-t-300-dc"], "fuse t 300")
    assert find_by_words(own, ["zzzzzz", "qqqqq"]).ids == []


@pytest.mark.parametrize(
    "text", ['"', "'", "*", "NEAR(", "a AND", "-", "^x", "id:", "\0", "(" * 99]
)
def test_words_are_no_query_language(own, text):
    assert isinstance(find_by_words(own, [text]).ids, list)


def test_the_index_agrees_with_a_look_at_every_part(catalogue, every):
    for words in (["class", "t"], ["4/0", "tinned"], ["band", "c"], ["blade", "7.5"], ["bus"]):
        texts = {
            part.id: (part.id, part.kind, getattr(part, "family", None), part.description,
                      part.document)
            for part in every
        }  # fmt: skip
        expected = sorted(each for each, own in texts.items() if matches(words, *own))
        assert find_by_words(catalogue, words, limit=5000).ids == expected, words


def test_words_follow_a_part_that_changes_and_one_that_goes(tmp_path):
    path = str(tmp_path / "x.sqlite")
    add_parts(path, [rated("a", 1.0, description="first words")])
    add_parts(path, [rated("a", 1.0, description="second thoughts")], replace=True)
    with open_catalogue(path) as catalogue:
        assert find_by_words(catalogue, ["first words"]).ids == []
        assert find_by_words(catalogue, ["second"]).ids == ["a"]


def test_the_index_of_words_is_in_step_with_the_parts(tmp_path):
    import sqlite3

    path = str(tmp_path / "x.sqlite")
    add_parts(path, [rated("a", 1.0, family="class-t"), Cable(id="b", kind="cable", awg="4/0")])
    add_parts(path, [Cable(id="a", kind="cable", description="no fuse now")], replace=True)
    connection = sqlite3.connect(path)
    check = "INSERT INTO part_words (part_words, rank) VALUES ('integrity-check', 1)"
    connection.execute(check)
    connection.close()
    store = Store(path, "shop")
    assert store.ask("SELECT rowid FROM part_words WHERE part_words MATCH 'class'") == []
    store.close()


def test_ids_for_a_shell(own):
    assert ids_from(own, "z-", 10) == ["z-cable", "z-none", "z-pack", "z-rows", "z-switch"]
    assert ids_from(own, "fuse-t-300", 10) == ["fuse-t-300", "fuse-t-300-dc"]
    assert len(ids_from(own, "", 7)) == 7


@pytest.mark.parametrize(
    ("meant", "near"),
    [
        ("z-swich", "z-switch"), ("z-rowss", "z-rows"), ("y-none", "z-none"),
        ("fuse-t-300-dcc", "fuse-t-300-dc"),
    ],
)  # fmt: skip
def test_a_near_id_of_a_large_catalogue_is_found_by_its_indexes(own, monkeypatch, meant, near):
    whole = own.near(meant)
    monkeypatch.setattr("catalogue.finding.by_id.SMALL", 1)
    monkeypatch.setattr(own.shop, "ids", None)
    assert own.near(meant) == whole == near
