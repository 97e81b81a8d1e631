"""Damage to a catalogue's file is told, or found by `verify`, or changes nothing that is read."""

from __future__ import annotations

import random
import sqlite3

import pytest

from catalogue.backup import back_up
from catalogue.errors import CatalogueError
from catalogue.shop import add_parts
from catalogue.verifying import verify
from tests.catalogue.test_safety import everything, fuses, history


@pytest.fixture
def shop(tmp_path):
    path = tmp_path / "shop.sqlite"
    add_parts(str(path), fuses(5))
    return path


def told_of(path):
    """What is told of a file that is not sound."""
    try:
        return verify(str(path)).problems
    except CatalogueError as error:
        return (str(error),)


def test_a_file_that_is_cut_off_is_never_taken_for_whole(shop, tmp_path):
    add_parts(str(shop), fuses(300, 100))
    whole, cut = shop.read_bytes(), tmp_path / "cut.sqlite"
    dice = random.Random(3)
    for size in (0, 1, 50, 100, 4096, *(dice.randrange(len(whole)) for _ in range(25))):
        cut.write_bytes(whole[:size])
        assert told_of(cut), size


def test_a_flipped_bit_is_an_error_or_found_by_verify_or_changes_nothing(shop, tmp_path):
    add_parts(str(shop), fuses(60, 100, description="what it is, in words"))
    sound, whole, bad = everything(shop), bytearray(shop.read_bytes()), tmp_path / "bad.sqlite"
    kept = history(shop)
    dice, found = random.Random(5), 0
    for _ in range(120):
        place, bit = dice.randrange(len(whole)), 1 << dice.randrange(8)
        whole[place] ^= bit
        bad.write_bytes(whole)
        whole[place] ^= bit
        try:
            problems = verify(str(bad)).problems
        except CatalogueError:
            found += 1
            continue
        found += bool(problems)
        if not problems:
            assert everything(bad) == sound, f"byte {place}, bit {bit}"
            assert history(bad) == kept, f"byte {place}, bit {bit}"
    assert found > 20


def test_what_verify_finds(shop):
    def harmed(*statements):
        bad = shop.with_name("bad.sqlite")
        back_up(shop, bad)
        connection = sqlite3.connect(bad)
        for statement in statements:
            connection.execute(statement)
        connection.commit()
        connection.close()
        return " | ".join(verify(str(bad)).problems)

    assert verify(str(shop)).problems == ()
    assert "'f-1' is not what its last revision says" in harmed(
        "UPDATE fuse SET rated_current = 11 WHERE key = 2"
    )
    assert "'f-1' is not what its last revision says" in harmed(
        "UPDATE interrupt_rating SET current = 9000 WHERE part_key = 2"
    )
    free = "DROP TRIGGER revision_not_altered", "DROP TRIGGER revision_not_deleted"
    text = harmed(*free, "UPDATE revision SET body = replace(body, '10.0', '12.0')")
    assert "revision 1 of 'f-0' is not what was written" in text
    assert "'revision_not_altered' is missing from the layout" in text
    assert "'f-2' has no revision" in harmed(*free, "DELETE FROM revision WHERE part_id = 'f-2'")
    assert "'f-2' is missing, though" in harmed("DELETE FROM part WHERE id = 'f-2'")
    assert "belongs to no part" in harmed("DELETE FROM part WHERE key = 3", "PRAGMA user_version")
    assert "has the successor 'gone', which is no part" in harmed(
        "UPDATE part SET status = 'retired', successor = 'gone' WHERE id = 'f-1'"
    )
    assert "'stranger' is not" not in harmed("CREATE TABLE stranger (x)")
    assert "part_words" in harmed("INSERT INTO part_words (part_words) VALUES ('delete-all')")
