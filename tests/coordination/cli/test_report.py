"""`fusewright report`: the file is there whole or not at all, and mistakes are told with a cure."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from .conftest import COMMAND, Run, Systems

QUICK = ("--sections", "basis")


def test_it_writes_the_page_and_says_so(
    fusewright: Run, systems: Systems, tmp_path: Path
) -> None:
    path = tmp_path / "report.html"
    ended = fusewright("report", systems.failing(), "-o", path, *QUICK)
    assert ended.status == 0
    assert ended.out.startswith(f"{path} is written: FAIL: 1 fail")
    assert path.read_text("utf-8").startswith("<!doctype html>")


def test_a_wrong_part_is_refused_with_the_nearest(
    fusewright: Run, systems: Systems, tmp_path: Path
) -> None:
    path = tmp_path / "report.html"
    ended = fusewright("report", systems.good(), "-o", path, "--sections", "labels,shedules")
    assert ended.status == 2
    assert "no section 'shedules'" in ended.err
    assert "did you mean 'schedules'?" in ended.err
    assert not path.exists()


def test_parts_may_be_named_together_or_apart(
    fusewright: Run, systems: Systems, tmp_path: Path
) -> None:
    a, b = tmp_path / "a.html", tmp_path / "b.html"
    fusewright("report", systems.good(), "-o", a, "--sections", "labels, basis")
    fusewright("report", systems.good(), "-o", b, "--sections", "basis", "--sections", "labels")
    assert a.read_bytes() == b.read_bytes()
    assert b'id="labels"' in a.read_bytes()
    assert b'id="points"' not in a.read_bytes()


@pytest.mark.parametrize(
    ("output", "said"),
    [("report.htm", "did you mean 'html'?"), ("report", "no format of a report ''")],
)
def test_another_kind_of_file_is_refused(
    fusewright: Run, systems: Systems, tmp_path: Path, output: str, said: str
) -> None:
    ended = fusewright("report", systems.good(), "-o", tmp_path / output, *QUICK)
    assert ended.status == 2
    assert said in ended.err
    assert list(tmp_path.glob("report*")) == []


def test_a_language_there_is_not_is_refused(
    fusewright: Run, systems: Systems, tmp_path: Path
) -> None:
    ended = fusewright(
        "report", systems.good(), "-o", tmp_path / "r.html", "--language", "dee", *QUICK
    )
    assert ended.status == 2
    assert "did you mean 'de'?" in ended.err


def test_what_was_there_stays_when_the_input_is_unusable(
    fusewright: Run, systems: Systems, tmp_path: Path
) -> None:
    path = tmp_path / "report.html"
    path.write_text("before")
    assert fusewright("report", systems.broken(), "-o", path, *QUICK).status == 2
    assert path.read_text() == "before"
    assert fusewright("report", systems.good(), "-o", path, *QUICK).status == 0
    assert path.read_text("utf-8") != "before"
    assert list(tmp_path.glob(".fusewright*")) == []


def test_no_folder_is_made(fusewright: Run, systems: Systems, tmp_path: Path) -> None:
    path = tmp_path / "gone" / "report.html"
    ended = fusewright("report", systems.good(), "-o", path, *QUICK)
    assert ended.status == 2
    assert "there is no such folder" in ended.err
    assert not path.parent.exists()


def test_a_run_other_than_the_files_own_says_so(
    fusewright: Run, systems: Systems, tmp_path: Path
) -> None:
    path = tmp_path / "report.html"
    fusewright("report", systems.good(), "-o", path, "--pack", "us_small_craft", *QUICK)
    assert "pack us_small_craft was asked for on the command line" in path.read_text("utf-8")


@pytest.mark.parametrize(
    ("format", "module", "cure"),
    [
        ("html", "jinja2", "pip install 'fusewright[papers]'"),
        ("pdf", "weasyprint", "'fusewright[pdf]'; on Debian also: apt install libpango"),
    ],
)
def test_a_missing_library_is_named_with_its_extra(
    systems: Systems, tmp_path: Path, format: str, module: str, cure: str
) -> None:
    (tmp_path / "none").mkdir()
    (tmp_path / "none" / f"{module}.py").write_text(
        f"raise ModuleNotFoundError('none', name={module!r})"
    )
    path = tmp_path / f"r.{format}"
    done = subprocess.run(
        [*COMMAND, "report", str(systems.good()), "-o", str(path), *QUICK],
        env=os.environ | {"PYTHONPATH": str(tmp_path / "none")},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert f"a report as {format} needs {module}, which is not installed" in done.stderr
    assert cure in done.stderr
    assert not path.exists()


def test_a_missing_system_library_is_told_too(systems: Systems, tmp_path: Path) -> None:
    (tmp_path / "none").mkdir()
    (tmp_path / "none" / "weasyprint.py").write_text(
        'raise OSError("cannot load library \'libpango-1.0-0\': not found")'
    )
    done = subprocess.run(
        [*COMMAND, "report", str(systems.good()), "-o", str(tmp_path / "r.pdf"), *QUICK],
        env=os.environ | {"PYTHONPATH": str(tmp_path / "none")},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert "needs libpango-1.0-0" in done.stderr
    assert "apt install libpango-1.0-0" in done.stderr


def test_a_check_loads_none_of_it(systems: Systems) -> None:
    code = (
        "import sys; sys.argv = ['fusewright', 'check', sys.argv[1]]\n"
        "import os; os._exit = lambda status: None\n"
        "from coordination.cli import main\n"
        "try: main()\n"
        "except SystemExit: pass\n"
        "names = ('jinja2', 'weasyprint', 'coordination.papers', 'coordination.diagram')\n"
        "print([name for name in names if name in sys.modules])"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(systems.good())],
        capture_output=True, text=True, check=False,
    )  # fmt: skip
    assert done.stdout.rstrip().endswith("[]")
