"""`fusewright curves`: writes whole files, and says what is wrong with what it was asked."""

from __future__ import annotations

import ast
import builtins
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from coordination.cli.written import today, write_whole

CHECKOUT = Path(__file__).parents[3]
LAUNCH = CHECKOUT / "tests" / "coordination" / "charts" / "launch.yaml"


@pytest.mark.parametrize(
    ("ending", "start"), [("svg", b"<?xml"), ("png", b"\x89PNG"), ("PDF", b"%PDF")]
)
def test_the_ending_of_the_name_decides_the_format(
    ending: str, start: bytes, tmp_path: Path, fusewright: Any
) -> None:
    out = tmp_path / f"chart.{ending}"
    ended = fusewright("curves", LAUNCH, "lamps", "-o", out)
    assert (ended.status, ended.err) == (0, "")
    assert ended.out == f"{out} is written: Time-current curves, lamps\n"
    assert out.read_bytes().startswith(start)


def test_without_names_the_worst_pair_is_drawn(tmp_path: Path, fusewright: Any) -> None:
    ended = fusewright("curves", LAUNCH, "-o", tmp_path / "x.svg")
    assert "Time-current curves, winch breaker" in ended.out


def test_several_names_and_a_condition(tmp_path: Path, fusewright: Any) -> None:
    out = tmp_path / "x.svg"
    ended = fusewright(
        "curves", LAUNCH, "lamp fuse", "winch feed", "-o", out, "--condition", "one pack out"
    )
    assert ended.status == 0
    text = out.read_text("utf-8")
    assert "one pack out" in text
    assert "winch breaker" in text
    assert "pack 2 fuse" not in text


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("lamp fuze",), "did you mean 'lamp fuse'?"),
        (("main feeed",), "did you mean 'main feed'?"),
        (("--condition", "one pack ou"), "did you mean 'one pack out'?"),
    ],
)
def test_a_wrong_name_is_answered_with_a_near_miss(
    arguments: tuple[str, ...], said: str, tmp_path: Path, fusewright: Any
) -> None:
    out = tmp_path / "x.svg"
    ended = fusewright("curves", LAUNCH, *arguments, "-o", out)
    assert ended.status == 2
    assert said in ended.err
    assert not out.exists()


@pytest.mark.parametrize("name", ["chart.jpg", "chart", ".svg"])
def test_another_format_is_refused_before_anything_is_read(
    name: str, tmp_path: Path, fusewright: Any
) -> None:
    ended = fusewright("curves", tmp_path / "no such.yaml", "-o", tmp_path / name)
    if name == ".svg":
        assert "no such.yaml" in ended.err
    else:
        assert "allowed: svg, png, pdf" in ended.err
    assert ended.status == 2


def test_an_old_file_is_replaced_whole(tmp_path: Path, fusewright: Any) -> None:
    out = tmp_path / "x.svg"
    out.write_text("old")
    out.chmod(0o640)
    assert fusewright("curves", LAUNCH, "lamps", "-o", out).status == 0
    assert out.read_bytes().startswith(b"<?xml")
    assert out.stat().st_mode & 0o777 == 0o640
    assert [each.name for each in tmp_path.iterdir()] == ["x.svg"]


def test_a_failed_write_leaves_the_old_file_and_nothing_else(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    out = tmp_path / "x.svg"
    out.write_text("old")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("coordination.cli.written.Path.replace", full)
    with pytest.raises(OSError, match="No space"):
        write_whole(str(out), b"new")
    assert out.read_text() == "old"
    assert [each.name for each in tmp_path.iterdir()] == ["x.svg"]


def test_a_folder_that_is_not_there_is_named(tmp_path: Path, fusewright: Any) -> None:
    out = tmp_path / "nowhere" / "x.svg"
    ended = fusewright("curves", LAUNCH, "lamps", "-o", out)
    assert ended.status == 2
    assert ended.err == f"{out}: there is no such folder\n"


def test_without_the_drawing_library_it_says_how_to_get_it(
    tmp_path: Path, fusewright: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = builtins.__import__

    def absent(name: str, *arguments: Any, **more: Any) -> Any:
        if name.partition(".")[0] == "matplotlib":
            raise ModuleNotFoundError("No module named 'matplotlib'", name="matplotlib")
        return real(name, *arguments, **more)

    for name in list(sys.modules):
        if name.startswith("coordination.charts"):
            monkeypatch.delitem(sys.modules, name)
    monkeypatch.setattr(builtins, "__import__", absent)
    ended = fusewright("curves", LAUNCH, "lamps", "-o", tmp_path / "x.svg")
    assert ended.status == 2
    assert "charts need matplotlib, which is not installed" in ended.err
    assert "pip install 'fusewright[charts]'" in ended.err


def test_the_date_on_the_sheet_can_be_set(monkeypatch: pytest.MonkeyPatch) -> None:
    """1 772 323 200 s after 1970 is the first of March 2026."""
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1772323200")
    assert today().isoformat() == "2026-03-01"


def test_the_same_day_gives_the_same_file(tmp_path: Path, process: Any) -> None:
    for name in ("a.svg", "b.svg"):
        ended = process(
            "curves", LAUNCH, "lamps", "-o", tmp_path / name, SOURCE_DATE_EPOCH="1772323200"
        )
        assert (ended.status, ended.err) == (0, "")
    assert (tmp_path / "a.svg").read_bytes() == (tmp_path / "b.svg").read_bytes()


def test_nothing_but_charts_and_diagrams_imports_the_drawing_library() -> None:
    engine = CHECKOUT / "coordination"
    drawing = {engine / "charts", engine / "diagram", engine / "pictures.py"}
    users = set()
    for folder in ("coordination", "catalogue", "plugins"):
        for file in (CHECKOUT / folder).rglob("*.py"):
            for node in ast.walk(ast.parse(file.read_text("utf-8"))):
                names = [each.name for each in node.names] if isinstance(node, ast.Import) else []
                if isinstance(node, ast.ImportFrom):
                    names = [node.module or ""]
                if any(each.partition(".")[0] == "matplotlib" for each in names):
                    users.add(file if file.parent == engine else file.parent)
    assert users == drawing


def test_a_check_does_not_load_it() -> None:
    code = (
        "import sys; sys.argv = ['fusewright', 'check', sys.argv[1]]\n"
        "import os; os._exit = lambda status: None\n"
        "from coordination.cli import main\n"
        "try: main()\n"
        "except SystemExit: pass\n"
        "print('loaded' if 'matplotlib' in sys.modules or 'numpy' in sys.modules else 'spared')"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(LAUNCH)], capture_output=True, text=True, check=False
    )
    assert done.stdout.rstrip().endswith("spared")
