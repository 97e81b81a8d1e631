"""How long suggestions take, in s of processor time and as ratios to `python -c pass`.

    python tests/benchmarks/suggest.py [--changes N] [NAME ...]

Without a name: one subject of the van, then the van, the cabin and the tender whole, each with the
parts of its mended drawing at hand. Has no budget: minutes are meant to be waited for once.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[2]))

from tests.coordination.suggest.conftest import Kit

WHOLE = ("van", "cabin", "tender")


def main() -> None:
    """Print a line for each."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--changes", type=int, default=1)
    parser.add_argument("names", nargs="*", choices=[*WHOLE, []])
    asked = parser.parse_args()
    start = time.perf_counter()
    subprocess.run([sys.executable, "-c", "pass"], check=True)
    unit = time.perf_counter() - start
    with tempfile.TemporaryDirectory() as folder:
        kit = Kit(Path(folder))
        if not asked.names:
            _one(kit, "van", "main fuse", 3, unit)
        for name in asked.names or WHOLE:
            _one(kit, name, None, asked.changes, unit)


def _one(kit: Kit, name: str, subject: str | None, changes: int, unit: float) -> None:
    path = kit.demo(name)
    start = time.process_time()
    answer = kit.ask(path, subject, changes=changes)
    took = time.process_time() - start
    made = len(answer.cures[0].changes) if answer.cures else 0
    fixed = len(answer.cures[0].fixed) if answer.cures else 0
    print(
        f"{name:8} {subject or 'whole':12} {took:7.1f} s {took / unit:8.0f} ×  "
        f"{answer.judged:4} judged, {made} changes, {fixed} fails fixed "
        f"({len(answer.targets)} asked about)",
        flush=True,
    )


if __name__ == "__main__":
    main()
