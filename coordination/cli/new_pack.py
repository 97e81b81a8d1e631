"""`fusewright rules new NAME [FOLDER]`: a complete installable pack to start from."""

from __future__ import annotations

import keyword
import re
from pathlib import Path

import coordination
from coordination.cli.output import emit
from coordination.errors import BadInput, Problem

TEMPLATE = Path(coordination.__file__).with_name("new_pack")
_NAME = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*")
#: Names that belong to Fusewright itself.
_TAKEN = ("fundamentals", "house", "new")


def write_pack(name: str, folder: str | None) -> int:
    """Write the pack into the folder (default: ./fusewright-<name>); gives 0.

    Raises BadInput: a name that cannot be, or files that are there already; OSError.
    """
    if not _NAME.fullmatch(name) or keyword.iskeyword(name) or name in _TAKEN:
        what = f"{name!r} cannot be the name of a pack"
        problem = Problem("fusewright rules new", 0, 0, what, "words_with_underscores: my_pack")
        raise BadInput((problem,))
    target = Path(folder or f"fusewright-{name.replace('_', '-')}")
    files = {_renamed(path, name, target): _text(path, name) for path in _templates()}
    there = tuple(
        Problem(str(path), 0, 0, "there is such a file already; nothing was written")
        for path in files
        if path.exists()
    )
    if there:
        raise BadInput(there)
    for path, text in files.items():
        path.parent.mkdir(parents=True, exist_ok=True)
        with path.open("x", encoding="utf-8", newline="\n") as stream:
            stream.write(text)
    emit(
        f"{target} is written. Try: pip install -e '{target}[test]' and, in it, python -m pytest\n"
    )
    return 0


def _templates() -> list[Path]:
    return sorted(path for path in TEMPLATE.rglob("*.txt") if path.is_file())


def _renamed(path: Path, name: str, target: Path) -> Path:
    inside = str(path.relative_to(TEMPLATE)).removesuffix(".txt")
    return target / inside.replace("my_pack", name)


def _text(path: Path, name: str) -> str:
    words = name.replace("_", " ")
    text = path.read_text(encoding="utf-8").replace("my_pack", name)
    text = text.replace("my-pack", name.replace("_", "-"))
    return text.replace("My pack", words[0].upper() + words[1:])
