"""`fusewright draw`: writes whole files, and says what is wrong with what it was asked."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

SYSTEMS = Path(__file__).parents[3] / "fixtures" / "systems"
VAN = SYSTEMS / "van-planted.yaml"


def test_it_writes_the_diagram(tmp_path: Path, process: Any) -> None:
    out = tmp_path / "van.svg"
    ended = process("draw", VAN, "-o", out, "--condition", "parked")
    assert (ended.status, ended.err) == (0, "")
    assert ended.out == f"{out} is written: 1 sheet\n"
    assert ">parked<" in out.read_text("utf-8")


def test_a_png_of_several_sheets_is_a_file_a_sheet(tmp_path: Path, process: Any) -> None:
    large = tmp_path / "large.yaml"
    maker = Path(__file__).parents[2] / "benchmarks" / "make_system.py"
    subprocess.run([sys.executable, maker, "--circuits", "60", large], check=True)
    ended = process("draw", large, "-o", tmp_path / "large.png")
    assert (ended.status, ended.err) == (0, "")
    names = sorted(each.name for each in tmp_path.glob("*.png"))
    assert names == [f"large-{number}.png" for number in range(1, len(names) + 1)]
    assert len(names) > 1
    assert ended.out == (
        f"{tmp_path}/large-1.png to {tmp_path}/{names[-1]} are written: {len(names)} sheets\n"
    )


def test_it_tells_what_it_cannot_do(tmp_path: Path, process: Any) -> None:
    for words, told in (
        (("-o", tmp_path / "van.jpeg"), "no format of a picture 'jpeg'"),
        (("-o", tmp_path / "van.svg", "--condition", "parkd"), "did you mean 'parked'"),
        (("-o", tmp_path / "nowhere" / "van.svg"), "there is no such folder"),
    ):
        ended = process("draw", VAN, *words)
        assert ended.status == 2
        assert told in ended.err
        assert "Traceback" not in ended.err
    assert list(tmp_path.iterdir()) == []


def test_without_the_drawing_library_it_names_the_extra(tmp_path: Path) -> None:
    code = (
        "import sys; sys.modules['schemdraw'] = None\n"
        "from coordination.cli import main\n"
        f"sys.argv = ['fusewright', 'draw', {str(VAN)!r}, '-o', {str(tmp_path / 'v.svg')!r}]\n"
        "main()"
    )
    ended = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False
    )
    assert ended.returncode == 2
    assert "diagrams need schemdraw, which is not installed" in ended.stderr
    assert "fusewright[papers]" in ended.stderr


def test_svg_does_without_matplotlib(tmp_path: Path) -> None:
    code = (
        "import sys; sys.modules['matplotlib'] = None\n"
        "from coordination.cli import main\n"
        f"sys.argv = ['fusewright', 'draw', {str(VAN)!r}, '-o', {str(tmp_path / 'v.svg')!r}]\n"
        "main()"
    )
    ended = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=False
    )
    assert (ended.returncode, ended.stderr) == (0, "")
