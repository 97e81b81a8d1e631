"""Writes the answers to all demo, case and made-up systems into a folder, to hold two states apart.

    python tests/benchmarks/answers.py FOLDER

Run it before and after a change that should only be quicker, then `diff -r` the two folders. JSON,
and the report with every pass in full; JSON with every pack that is installed too.
"""

from __future__ import annotations

import argparse
import io
import tempfile
from collections.abc import Iterator
from contextlib import redirect_stderr, redirect_stdout
from pathlib import Path

from make_system import make_system

from coordination.cli.check import check_file
from coordination.cli.guard import status_of
from coordination.cli.quick import Check
from coordination.rules.host import PackHost

ROOT = Path(__file__).parents[2]
#: Circuits of made-up systems, and the share of their bars in rings.
MADE = ((45, 0.0), (60, 0.5), (235, 0.0))


def systems(folder: Path) -> Iterator[tuple[str, Path]]:
    """A name for each system, and its file; made-up ones are written to the folder."""
    for pattern in ("fixtures/systems/**/*.yaml", "plugins/*/cases/systems/*.yaml"):
        for path in sorted(ROOT.glob(pattern)):
            if not path.name.endswith(".expected.yaml"):
                yield "_".join(path.relative_to(ROOT).parts), path
    for circuits, loops in MADE:
        path = folder / f"{circuits}-circuits-{loops:g}.yaml"
        path.write_text(make_system(circuits, loops), encoding="utf-8")
        yield path.name, path


def answer(asked: Check) -> str:
    """What a check prints, and its exit status."""
    out = io.TextIOWrapper(io.BytesIO(), encoding="utf-8", write_through=True)
    with redirect_stdout(out), redirect_stderr(out):
        status = status_of(lambda: check_file(asked), False)
    out.seek(0)
    return f"{out.read()}\nstatus {status}\n"


def main() -> None:
    """Write them all."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    target = parser.parse_args().folder
    target.mkdir(parents=True, exist_ok=True)
    packs = PackHost().names()
    with tempfile.TemporaryDirectory() as folder:
        for name, path in systems(Path(folder)):
            shown = str(path.relative_to(ROOT) if path.is_relative_to(ROOT) else path)
            ways = {
                "json": Check(shown, format="json"),
                "packs.json": Check(shown, format="json", packs=packs),
                "txt": Check(shown, full=True, width=100),
            }
            for ending, asked in ways.items():
                text = answer(asked).replace(folder, "")
                (target / f"{name}.{ending}").write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
