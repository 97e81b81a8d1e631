"""No command goes on the network, starts a program, or writes where it was not told to."""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
SYSTEM = str(ROOT / "fixtures/systems/van-planted.yaml")
#: What libraries keep for themselves below the user's home: the drawing library lists fonts once.
OWN_CACHES = (".cache/matplotlib", ".config/matplotlib", ".cache/fontconfig")

#: What the drawing library asks for fonts the first time.
FONT_LISTER = "fc-list"

#: Arguments, with {out} for the folder that may be written to; the exit status.
COMMANDS = [
    (("check", SYSTEM), 1),
    (("check", SYSTEM, "--format", "json"), 1),
    (("check", SYSTEM, "--format", "sarif"), 1),
    (("check", "no-such-file.yaml"), 2),
    (("explain", SYSTEM, "main fuse"), 0),
    (("faults", SYSTEM), 0),
    (("pairs", SYSTEM), 0),
    (("rules", "--markdown"), 0),
    (("rules", "new", "my_pack"), 0),
    (("schema", "system"), 0),
    (("new", "{out}/new.yaml"), 0),
    (("draw", SYSTEM, "-o", "{out}/one-line.svg"), 0),
    (("curves", SYSTEM, "-o", "{out}/curves.png"), 0),
    (("report", SYSTEM, "-o", "{out}/report.html"), 0),
    (("schedule", "cables", SYSTEM, "-o", "{out}/cables.xlsx"), 0),
    (("measured", SYSTEM, "--blank", "-o", "{out}/record.yaml"), 0),
    (("parts", "list"), 0),
    (("parts", "show", "fuse-t-300"), 0),
    (("parts", "add", "x", "--kind", "fuse", "rated_current=30 A", "--catalogue", "{out}/s.db"), 0),
    (("parts", "export", "{out}/parts.csv"), 0),
]


def touched(words: tuple[str, ...], folder: Path) -> tuple[int, dict[str, list[str]]]:
    """The exit status, and what Python saw the command touch."""
    out, home, told = (folder / each for each in ("out", "home", "told.json"))
    for each in (out, home, folder / "scratch"):
        each.mkdir()
    command = [sys.executable, str(Path(__file__).with_name("watched.py")), str(told)]
    command += [word.replace("{out}", str(out)) for word in words]
    environment = {
        "PATH": os.environ["PATH"], "HOME": str(home), "TMPDIR": str(folder / "scratch"),
        "PYTHONPATH": str(ROOT),
        "PYTHONDONTWRITEBYTECODE": "1", "FUSEWRIGHT_BY": "a test",
    }  # fmt: skip
    done = subprocess.run(
        command, cwd=out, env=environment, capture_output=True, text=True, check=False
    )
    assert told.exists(), done.stderr
    return done.returncode, json.loads(told.read_text("utf-8"))


@pytest.mark.parametrize(("words", "status"), COMMANDS, ids=lambda each: str(each)[:40])
def test_a_command_touches_nothing_else(
    words: tuple[str, ...], status: int, tmp_path: Path
) -> None:
    ended, seen = touched(words, tmp_path)
    assert ended == status
    assert seen["network"] == []
    assert [each for each in seen["programs"] if FONT_LISTER not in each] == []
    home, scratch = tmp_path / "home", tmp_path / "scratch"
    allowed = (str(tmp_path / "out"), str(scratch), *(str(home / each) for each in OWN_CACHES))
    assert [path for path in seen["written"] if not _may(path, allowed, home)] == []
    # A sheet of XLSX is put together from pieces, which must not stay.
    assert list(scratch.iterdir()) == []


def _may(path: str, allowed: tuple[str, ...], home: Path) -> bool:
    """Below what is allowed, or a folder on the way to it."""
    return path.startswith(allowed) or path in (str(home / ".cache"), str(home / ".config"))


def test_the_watch_sees_what_it_is_there_for(tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere.yaml"
    _, seen = touched(("new", str(elsewhere)), tmp_path)
    assert str(elsewhere) in " ".join(seen["written"])
