"""Nothing is lost or half-written: kills, full disks, read-only places, damage, many writers."""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
import sys
import threading
import time
from pathlib import Path

import pytest

from catalogue.backup import back_up
from catalogue.changes import change_by
from catalogue.errors import CatalogueError
from catalogue.parts import Fuse
from catalogue.records import InterruptRating
from catalogue.saving import save
from catalogue.shop import add_parts
from catalogue.store import GENERIC, Store, open_catalogue
from catalogue.verifying import verify
from catalogue.writing import open_for_change
from tests.catalogue.kills import kill

CHECKOUT = Path(__file__).parents[2]
RUN = (sys.executable, "-c", "from coordination.cli import main; main()", "parts")


def fuses(count, start=0, **values):
    return [Fuse(id=f"f-{number}", kind="fuse", rated_current=10.0,
                 interrupt_ratings=(InterruptRating(32.0, 5000.0),), **values)
            for number in range(start, start + count)]  # fmt: skip


@pytest.fixture
def shop(tmp_path):
    path = tmp_path / "shop.sqlite"
    add_parts(str(path), fuses(5))
    return path


def command(*arguments, before=()):
    """The command as a process of its own: its status, and what it printed on standard error."""
    words = [*before, *RUN, *map(str, arguments)]
    done = subprocess.run(words, capture_output=True, text=True, check=False, cwd=CHECKOUT)
    assert "Traceback" not in done.stderr
    return done.returncode, done.stderr


def test_killed_at_a_random_moment_a_command_has_done_all_or_nothing():
    # Hundreds of them: python -m tests.catalogue.kills --times 300
    ends = kill(12, seed=7)
    assert sum(count for each in ends.values() for end, count in each.items()
               if end.startswith("killed")) == 12  # fmt: skip


def put_into_full(path):
    with open_for_change(path) as db:
        (pages,) = db.execute("PRAGMA page_count").fetchone()
        db.execute(f"PRAGMA max_page_count = {pages + 2}")
        save(db, fuses(3000, 100), change_by("x"))


def test_a_full_file_takes_nothing_in(shop):
    before = dump(shop)
    with pytest.raises(CatalogueError, match="no room left; nothing was changed"):
        put_into_full(shop)
    assert dump(shop) == before
    assert verify(str(shop)).problems == ()
    add_parts(str(shop), fuses(1, 50))


def small_disk(folder):
    """A disk of 1 MB, or nothing where none can be made."""
    if sys.platform != "linux" or os.geteuid() != 0:
        return False
    made = ["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", str(folder)]
    return subprocess.run(made, capture_output=True, check=False).returncode == 0


def test_a_full_disk_is_told_and_leaves_the_file_as_it_was(tmp_path):
    disk = tmp_path / "disk"
    disk.mkdir()
    if not small_disk(disk):
        pytest.skip("no small disk can be mounted here")
    try:
        shop, sheet = disk / "shop.sqlite", tmp_path / "many.csv"
        add_parts(str(shop), fuses(5))
        before = dump(shop)
        rows = "".join(f"x-{each},fuse,10 A,{'words ' * 20}\n" for each in range(4000))
        sheet.write_text(f"id,kind,rated_current,notes\n{rows}", encoding="utf-8")
        status, told = command("import", sheet, "--catalogue", shop)
        assert (status, "no room left" in told) == (2, True), told
        status, told = command("backup", disk / "copy.sqlite", "--catalogue", shop)
        assert status in (0, 2), told
        assert [each.name for each in disk.glob(".*")] == []
        assert dump(shop) == before
        assert verify(str(shop)).problems == ()
        add_parts(str(shop), fuses(1, 50))
    finally:
        subprocess.run(["umount", "-l", str(disk)], check=True)


def dump(path):
    connection = sqlite3.connect(path)
    lines = list(connection.iterdump())
    connection.close()
    return lines


#: Takes from root the right to write wherever it likes.
MODEST = ("setpriv", "--inh-caps=-dac_override", "--bounding-set=-dac_override")


def modestly(*arguments):
    """A command by somebody who may write only where permissions say so."""
    return command(*arguments, before=MODEST if os.geteuid() == 0 else ())


@pytest.mark.skipif(
    os.geteuid() == 0 and shutil.which("setpriv") is None, reason="root may write anywhere"
)
@pytest.mark.parametrize("what", ["file", "folder", "both"])
def test_where_nothing_may_be_written_parts_are_read_and_changes_refused(tmp_path, what):
    folder = tmp_path / "kept"
    folder.mkdir()
    shop = folder / "shop.sqlite"
    add_parts(str(shop), fuses(5))
    before = dump(shop)
    shop.chmod(0o444 if what in ("file", "both") else 0o644)
    folder.chmod(0o555 if what in ("folder", "both") else 0o755)
    try:
        status, told = modestly("show", "f-1", "--catalogue", shop)
        assert status == 0, told
        status, told = modestly("add", "x", "kind=fuse", "--catalogue", shop, "--by", "x")
        assert status == 2, told
        assert "cannot be written" in told
        status, told = modestly("log", "f-1", "--catalogue", shop)
        assert status == 0, told
    finally:
        folder.chmod(0o755)
        shop.chmod(0o644)
    assert dump(shop) == before


def test_changes_left_in_a_log_where_none_can_read_it_are_not_passed_over(shop, monkeypatch):
    writer = sqlite3.connect(shop)
    writer.execute("UPDATE part SET notes = 'newer' WHERE id = 'f-1'")
    writer.commit()
    assert (shop.parent / "shop.sqlite-wal").stat().st_size
    from catalogue import store

    monkeypatch.setattr(store.os, "access", lambda *_: False)
    assert not store._lies_still(str(shop))
    writer.close()
    assert store._lies_still(str(shop))


def everything(path):
    """All parts of a file, or why they cannot be had."""
    with open_catalogue(str(path)) as catalogue:
        assert catalogue.shop is not None
        return [catalogue.shop.get(part_id) for part_id in catalogue.shop.ids()]


def history(path):
    with Store(str(path), "shop") as store:
        return store.ask("SELECT * FROM history ORDER BY id, revision")


WRITER = """
import sys
from catalogue.parts import Fuse
from catalogue.shop import add_parts
path, name = sys.argv[1:]
for number in range(12):
    add_parts(path, [Fuse(id=f"{name}-{number}", kind="fuse", rated_current=1.0)], by=name)
    one = [Fuse(id="common", kind="fuse", notes=f"{name} {number}")]
    add_parts(path, one, replace=True, by=name)
"""


@pytest.mark.parametrize("begun", ["a new file", "a file"])
def test_four_processes_write_at_once_and_no_change_is_lost(tmp_path, begun):
    path = tmp_path / "shop.sqlite"
    if begun == "a file":
        add_parts(str(path), fuses(2))
    writers = [
        subprocess.Popen([sys.executable, "-c", WRITER, str(path), name], cwd=CHECKOUT,
                         stderr=subprocess.PIPE, text=True)
        for name in "abcd"
    ]  # fmt: skip
    stop, wrong = threading.Event(), []

    def copies():
        while not stop.is_set():
            if path.is_file():
                try:
                    back_up(path, tmp_path / "copy.sqlite")
                except CatalogueError as error:
                    # A file that was made a moment ago is no catalogue yet.
                    if "but no parts catalogue" not in str(error):
                        wrong.append(str(error))
            time.sleep(0.02)

    copier = threading.Thread(target=copies)
    copier.start()
    told = [writer.communicate()[1] for writer in writers]
    stop.set()
    copier.join()
    assert [writer.returncode for writer in writers] == [0] * 4, told
    assert wrong == []
    found = history(path)
    assert sum(row[0] == "common" for row in found) == 48
    assert {row[0] for row in found} >= {f"{each}-{number}" for each in "abcd"
                                         for number in range(12)}  # fmt: skip
    assert verify(str(path)).problems == ()
    assert verify(str(tmp_path / "copy.sqlite")).problems == ()


def test_a_backup_is_one_whole_file_that_replaces_an_older_one_only(shop, tmp_path):
    copy = tmp_path / "copy.sqlite"
    back_up(shop, copy)
    add_parts(str(shop), fuses(1, 50))
    back_up(shop, copy)
    assert everything(copy) == everything(shop)
    assert sorted(each.name for each in tmp_path.glob("*copy*")) == ["copy.sqlite"]
    own = tmp_path / "letter.txt"
    own.write_text("dear yard")
    for target, words in (
        (own, "no parts catalogue"), (shop, "another file"), (tmp_path, "another file"),
        (tmp_path / "no/x", "cannot be"),
    ):  # fmt: skip
        with pytest.raises(CatalogueError, match=words):
            back_up(shop, target)
    assert own.read_text() == "dear yard"
    with pytest.raises(CatalogueError, match="no catalogue file"):
        back_up(tmp_path / "none", copy)


def test_a_write_goes_through_a_log_and_to_the_disk(shop):
    with open_for_change(shop) as db:
        settings = [db.execute(f"PRAGMA {name}").fetchone()[0] for name in
                    ("journal_mode", "synchronous", "foreign_keys", "trusted_schema")]  # fmt: skip
        (patience,) = db.execute("PRAGMA busy_timeout").fetchone()
    assert settings == ["wal", 2, 1, 0]
    assert patience >= 5000


def test_the_generic_file_is_whole():
    connection = sqlite3.connect(f"file:{GENERIC}?mode=ro&immutable=1", uri=True)
    assert connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    assert connection.execute("PRAGMA foreign_key_check").fetchall() == []
    connection.close()
