"""How long the papers of the demo systems take, and how large they are.

    python tests/benchmarks/papers.py [--rounds N]

Prints a table and ends with 1 if a budget is missed. A run is a whole process; the quickest of the
rounds counts, because everything else is what the machine did beside it.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

SYSTEMS = Path(__file__).parents[2] / "fixtures/systems"
NAMES = ("tender-planted", "tender-cured", "van-planted", "van-cured")
RUN = (sys.executable, "-c", "from coordination.cli import main; main()")
#: All sections but the drawings.
PLAIN = "findings,points,schedules,labels,commissioning,passes,basis"
#: Seconds without and with drawings; bytes.
SECONDS, DRAWN_SECONDS, BYTES = 0.5, 4.0, 1_500_000
#: Circuits of a large system, and the bytes that its page may have.
CIRCUITS, LARGE_BYTES = 300, 2_500_000


def took(command: tuple[str, ...]) -> float:
    """Seconds of one run. Ends the program if it fails."""
    start = time.perf_counter()
    environment = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    done = subprocess.run(command, env=environment, stdout=subprocess.DEVNULL, check=False)
    if done.returncode:
        sys.exit(f"{' '.join(command[3:])} ended with {done.returncode}")
    return time.perf_counter() - start


def main() -> int:
    """Measure, print, and say whether every budget is kept."""
    arguments = argparse.ArgumentParser(description=__doc__)
    arguments.add_argument("--rounds", type=int, default=3)
    rounds = arguments.parse_args().rounds
    over = False
    with tempfile.TemporaryDirectory() as folder:
        for name in NAMES:
            page = Path(folder, f"{name}.html")
            command = (*RUN, "report", str(SYSTEMS / f"{name}.yaml"), "-o", str(page))
            plain = min(took((*command, "--sections", PLAIN)) for _ in range(rounds))
            drawn = min(took(command) for _ in range(rounds))
            size = page.stat().st_size
            over |= plain > SECONDS or drawn > DRAWN_SECONDS or size > BYTES
            print(f"{name:<16}{plain:6.2f} s{drawn:8.2f} s with drawings{size / 1e6:7.2f} MB")
        large = Path(folder, "large.html")
        made = Path(folder, "large.yaml")
        maker = Path(__file__).with_name("make_system.py")
        took((sys.executable, str(maker), "--circuits", str(CIRCUITS), str(made)))
        drawn = took((*RUN, "report", str(made), "-o", str(large)))
        size = large.stat().st_size
        over |= size > LARGE_BYTES
        print(f"{f'{CIRCUITS} circuits':<24}{drawn:8.2f} s with drawings{size / 1e6:7.2f} MB"
              f" of {LARGE_BYTES / 1e6:.2f} MB")  # fmt: skip
    print(f"{'at most':<16}{SECONDS:6.2f} s{DRAWN_SECONDS:8.2f} s{'':14}{BYTES / 1e6:7.2f} MB")
    return 1 if over else 0


if __name__ == "__main__":
    sys.exit(main())
