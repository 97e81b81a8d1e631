"""Two benches, one truth: what only the other has comes over; conflicts wait for a decision."""

from __future__ import annotations

import sqlite3

import pytest

from catalogue.errors import CatalogueError
from catalogue.merging import EVERY, OURS, THEIRS, Undecided, compare, decisions, merge
from catalogue.parts import Fuse
from catalogue.shop import add_parts
from catalogue.store import Store, open_catalogue


def fuse(part_id, amps, **values):
    written = {"rated_current": f"{amps} A"}
    return Fuse(id=part_id, kind="fuse", rated_current=float(amps), written=written, **values)


@pytest.fixture
def benches(tmp_path):
    """Ours and theirs: `same` in both, `clash` differs, `new` is theirs alone in two revisions."""
    ours, theirs = str(tmp_path / "ours.sqlite"), str(tmp_path / "theirs.sqlite")
    add_parts(ours, [fuse("same", 10), fuse("clash", 20), fuse("mine", 5)], by="anna")
    add_parts(theirs, [fuse("same", 10), fuse("clash", 25, notes="new"), fuse("new", 30)], by="ben")
    add_parts(theirs, [fuse("new", 32)], replace=True, by="cleo", why="typing error")
    return ours, theirs


def history(path, part_id):
    connection = sqlite3.connect(path)
    rows = connection.execute(
        "SELECT revision.number, changed_by, why, changed_at, sha256 FROM revision "
        "JOIN change ON change.number = revision.change WHERE part_id = ? ORDER BY 1", [part_id]
    ).fetchall()
    connection.close()
    return rows


def get(path, part_id):
    with open_catalogue(path) as catalogue:
        return catalogue.get(part_id)


def test_what_a_merge_would_find(benches):
    found = compare(*benches)
    assert (found.only_there, found.same) == (("new",), 1)
    (conflict,) = found.conflicts
    assert (conflict.part_id, conflict.known) == ("clash", "")
    assert [tuple(field) for field in conflict.fields] == [
        ("notes", "", "new"), ("rated_current", "20 A", "25 A"),
    ]  # fmt: skip


def test_nothing_is_written_while_a_conflict_is_open(benches):
    ours, theirs = benches
    with pytest.raises(Undecided, match="1 conflict to decide; nothing was written"):
        merge(ours, theirs, {})
    assert get(ours, "new") is None


def test_new_parts_come_with_their_history(benches):
    ours, theirs = benches
    merge(ours, theirs, {"clash": OURS}, by="anna")
    assert history(ours, "new") == history(theirs, "new")
    assert [row[1:3] for row in history(ours, "new")] == [("ben", None), ("cleo", "typing error")]
    assert (get(ours, "new").rated_current, get(ours, "clash").rated_current) == (32.0, 20.0)
    assert len(history(ours, "clash")) == 1
    # The words of what came are found, as those of any part.
    store = Store(ours, "shop")
    query = "SELECT count(*) FROM part_words WHERE part_words MATCH 'new'"
    assert store.ask(query) == [(1,)]
    store.close()


def test_their_state_of_a_conflict_is_one_more_revision_of_ours(benches):
    ours, theirs = benches
    merge(ours, theirs, {EVERY: THEIRS}, by="anna")
    assert get(ours, "clash").rated_current == 25.0
    assert [row[1:3] for row in history(ours, "clash")] == [
        ("anna", None), ("anna", "merged from theirs.sqlite"),
    ]  # fmt: skip
    assert compare(ours, theirs) == ((), 3, ())


def test_a_merge_tells_whose_state_goes_on_from_whose(benches):
    ours, theirs = benches
    merge(ours, theirs, {"clash": THEIRS})
    add_parts(theirs, [fuse("clash", 26)], replace=True)
    (conflict,) = compare(ours, theirs).conflicts
    assert conflict.known == "theirs goes on from ours"
    (conflict,) = compare(theirs, ours).conflicts
    assert conflict.known == "ours goes on from theirs"


def test_what_one_took_out_is_a_conflict_both_ways(benches):
    from pathlib import Path

    from catalogue.changes import change_by
    from catalogue.saving import take_out
    from catalogue.writing import open_for_change, transaction

    ours, theirs = benches
    with open_for_change(Path(ours)) as db, transaction(db):
        take_out(db, ["same"], change_by("anna"))
    conflict = next(each for each in compare(ours, theirs).conflicts if each.part_id == "same")
    assert (conflict.ours, conflict.theirs.rated_current) == (None, 10.0)
    merge(ours, theirs, {"same": THEIRS, "clash": OURS})
    assert get(ours, "same").rated_current == 10.0
    with open_for_change(Path(theirs)) as db, transaction(db):
        take_out(db, ["same"], change_by("ben"))
    merge(ours, theirs, {EVERY: THEIRS})
    assert get(ours, "same") is None


def test_merging_into_no_catalogue_makes_one(benches, tmp_path):
    fresh = str(tmp_path / "fresh.sqlite")
    assert compare(fresh, benches[1]).only_there == ("clash", "new", "same")
    merge(fresh, benches[1], {})
    assert history(fresh, "new") == history(benches[1], "new")
    assert compare(fresh, benches[1]) == ((), 3, ())


@pytest.mark.parametrize(
    ("said", "message"),
    [
        (["their=clash"], "did you mean 'theirs'"),
        (["theirs"], "decides nothing"),
        (["theirs=a", "ours=a"], "both theirs and ours"),
    ],
)
def test_decisions_that_are_none(said, message):
    with pytest.raises(CatalogueError, match=message):
        decisions(said)


def test_only_a_conflict_can_be_decided(benches):
    with pytest.raises(CatalogueError, match="'clahs' is in no conflict; did you mean 'clash'"):
        merge(*benches, {"clahs": OURS, "clash": OURS})
    with pytest.raises(CatalogueError, match="is the shop's catalogue itself"):
        merge(benches[0], benches[0], {})
    with pytest.raises(CatalogueError, match="there is no catalogue file"):
        merge(benches[0], "/no/such.sqlite", {})


def test_a_history_that_was_tampered_with_is_refused_whole(benches):
    ours, theirs = benches
    connection = sqlite3.connect(theirs)
    connection.execute("DROP TRIGGER revision_not_altered")
    connection.execute("UPDATE revision SET body = replace(body, '30', '31') WHERE number = 1 "
                       "AND part_id = 'new'")  # fmt: skip
    connection.commit()
    connection.close()
    with pytest.raises(CatalogueError, match="revision 1 of 'new' is not what was written"):
        merge(ours, theirs, {EVERY: OURS})
    assert get(ours, "new") is None
