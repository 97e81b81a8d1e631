"""Kills programs that write a catalogue, at random moments, and looks at what they leave behind.

    python -m tests.catalogue.kills --times 300 [--seed N]

An import of many parts, a row of edits and a migration are each done by a process of their own,
which is ended by SIGKILL. A command that was killed must have done all or nothing, the file must be
sound, and the next command must find nothing in its way. Ends with 1 at the first that is not so.
"""

from __future__ import annotations

import argparse
import os
import random
import shutil
import signal
import sqlite3
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable
from pathlib import Path
from typing import Final

from catalogue import migrations, writing
from catalogue.parts import Fuse
from catalogue.records import Curve, InterruptRating
from catalogue.shop import add_parts
from catalogue.verifying import verify
from catalogue.writing import open_for_change

IMPORTED: Final = 2000
EDITS: Final = 8
OLD_PARTS: Final = 60


def fuse(name: str, rating: float) -> Fuse:
    """A fuse with rows in several tables."""
    return Fuse(
        id=name, kind="fuse", rated_current=rating, description="x" * 200,
        interrupt_ratings=(InterruptRating(32.0, 5000.0), InterruptRating(58.0, 2000.0)),
        curve=Curve(((2 * rating, 10.0), (9 * rating, 0.1))), written={"rated_current": "1 A"},
    )  # fmt: skip


def make_new(path: Path) -> None:
    """A catalogue of today with some parts."""
    add_parts(str(path), [fuse(f"old-{number}", 10.0) for number in range(20)], by="before")


def make_old(path: Path) -> None:
    """A catalogue of the second layout."""
    ways = migrations.MIGRATIONS, migrations.SCHEMA_VERSION, writing._write_ahead
    migrations.MIGRATIONS, migrations.SCHEMA_VERSION = ways[0][:2], 2  # type: ignore[misc]
    writing._write_ahead = lambda _: None
    try:
        with open_for_change(path) as db:
            db.execute("BEGIN")
            for number in range(OLD_PARTS):
                name = f"old-{number}"
                db.execute("INSERT INTO part (id, kind) VALUES (?, 'fuse')", [name])
                db.execute("INSERT INTO fuse (id, kind, rated_current) VALUES (?, 'fuse', 5)",
                           [name])  # fmt: skip
                db.execute("INSERT INTO written VALUES (?, 'rated_current', '5 A')", [name])
            db.execute("COMMIT")
    finally:
        migrations.MIGRATIONS, migrations.SCHEMA_VERSION = ways[:2]  # type: ignore[misc]
        writing._write_ahead = ways[2]


def do_import(path: Path) -> None:
    add_parts(str(path), [fuse(f"new-{number}", 20.0) for number in range(IMPORTED)], by="import")


def do_edits(path: Path) -> None:
    for number in range(EDITS):
        changed = [fuse(f"old-{each}", 30.0 + number) for each in range(3)]
        add_parts(str(path), changed, replace=True, by="edit", why=f"edit {number}")


def do_migrate(path: Path) -> None:
    with open_for_change(path):
        pass


def ask(path: Path, query: str) -> list[tuple[object, ...]]:
    connection = sqlite3.connect(path)
    try:
        return connection.execute(query).fetchall()
    finally:
        connection.close()


def left_by_import(path: Path) -> str:
    """All of the import, or nothing of it."""
    ((count,),) = ask(path, "SELECT count(*) FROM revision")
    assert count in (20, 20 + IMPORTED), f"{count} revisions after an import was killed"
    return "done" if count > 20 else "nothing"


def left_by_edits(path: Path) -> str:
    """A number of edits, each of three parts, and in their order."""
    found = ask(path, "SELECT why, count(*) FROM history WHERE changed_by = 'edit' GROUP BY change")
    assert found == [(f"edit {each}", 3) for each in range(len(found))], found
    last = {row[0] for row in ask(path, "SELECT rated_current FROM fuse WHERE key <= 3")}
    assert last == {29.0 + len(found) if found else 10.0}, (last, found)
    return "done" if len(found) == EDITS else "some" if found else "nothing"


def left_by_migration(path: Path) -> str:
    """The old layout with all in it, or the new one; and no backup that is not whole."""
    for kept in path.parent.glob(f"{path.name}.layout-2*.backup"):
        assert ask(kept, "PRAGMA integrity_check") == [("ok",)]
        assert ask(kept, "SELECT count(*) FROM written") == [(OLD_PARTS,)]
    ((version,),) = ask(path, "PRAGMA user_version")
    assert ask(path, "SELECT count(*) FROM part") == [(OLD_PARTS,)]
    if version == 2:
        assert ask(path, "SELECT count(*) FROM written") == [(OLD_PARTS,)]
        return "nothing"
    assert version == migrations.SCHEMA_VERSION
    assert ask(path, "SELECT count(*) FROM revision") == [(OLD_PARTS,)]
    return "done"


Work = tuple[
    Callable[[Path], None], Callable[[Path], None], Callable[[Path], str]
]
WORKS: Final[dict[str, Work]] = {
    "import": (make_new, do_import, left_by_import),
    "edit": (make_new, do_edits, left_by_edits),
    "migration": (make_old, do_migrate, left_by_migration),
}


def started(work: Callable[[Path], None], path: Path) -> int:
    """The process that does the work; it has all modules already, so that it writes at once."""
    child = os.fork()
    if child == 0:
        status = 1
        try:
            work(path)
            status = 0
        finally:
            os._exit(status)
    return child


def once(name: str, first: Path, folder: Path, after: float) -> str:
    """Kill one process after a time [s]; what it left, and whether it was killed in time."""
    _, work, look = WORKS[name]
    path = folder / "shop.sqlite"
    shutil.copy(first, path)
    child = started(work, path)
    time.sleep(after)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    assert os.WIFSIGNALED(status) or os.WEXITSTATUS(status) == 0, f"{name} failed by itself"
    half = any(
        each.stat().st_size
        for each in folder.glob("shop.sqlite-*") if each.name.endswith(("-wal", "-journal"))
    )  # fmt: skip
    left = look(path)
    # The next command goes on as if nothing had been.
    add_parts(str(path), [fuse("after", 1.0)], by="after")
    found = verify(str(path))
    assert found.problems == (), found.problems
    if not os.WIFSIGNALED(status):
        return "not killed in time"
    return f"killed, {left} {'with a log left over' if half else 'with no log left'}"


def kill(times: int, seed: int) -> dict[str, Counter[str]]:
    """Kill so many processes (those that ended before do not count); how each ended, by work.

    Raises AssertionError for one that left what it should not.
    """
    dice = random.Random(seed)
    told: dict[str, Counter[str]] = {name: Counter() for name in WORKS}
    with tempfile.TemporaryDirectory() as top:
        lasts = {}
        for name, (make, work, _) in WORKS.items():
            first = Path(top, f"{name}.sqlite")
            make(first)
            copy = Path(top, f"{name}-timed.sqlite")
            shutil.copy(first, copy)
            begun = time.monotonic()
            os.waitpid(started(work, copy), 0)
            lasts[name] = time.monotonic() - begun
        killed = 0
        while killed < times:
            name = list(WORKS)[killed % len(WORKS)]
            with tempfile.TemporaryDirectory(dir=top) as folder:
                after = dice.uniform(0, lasts[name])
                end = once(name, Path(top, f"{name}.sqlite"), Path(folder), after)
            told[name][end] += 1
            if end == "not killed in time":
                lasts[name] *= 0.95
            else:
                killed += 1
    return told


def main() -> int:
    """Kill, and print how each ended."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--times", type=int, default=300)
    arguments.add_argument("--seed", type=int, default=1)
    asked = arguments.parse_args()
    told = kill(asked.times, asked.seed)
    for name, ends in told.items():
        for end, count in sorted(ends.items()):
            sys.stdout.write(f"{name:10} {count:4}  {end}\n")
    sys.stdout.write(f"{asked.times} killed: no revision lost or half-written, all files sound\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
