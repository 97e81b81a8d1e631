"""How a catalogue of a million parts bears: import, search by words and by measure, a check.

    python tests/benchmarks/many_parts.py [--parts 1000000] [--keep FOLDER]

Times are of this process [s of wall clock, s of processor]: on a busy machine the second counts.
"""

from __future__ import annotations

import argparse
import gc
import random
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from statistics import median
from typing import Any

RATINGS = [1, 3, 6, 10, 15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125, 150, 175,
           200, 225, 250, 300, 350, 400, 450, 500, 600]  # fmt: skip
CLASSES = ["T", "J", "RK1", "RK5"]
AREAS = [1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150]
RUN = [sys.executable, "-c", "from coordination.cli import main; main()"]


def rows(count: int) -> Iterator[str]:
    """A sheet of fuses, cables, switches and batteries whose texts are like those of a shop."""
    chance = random.Random(7)
    yield "id,kind,description,family,rated_current,rated_voltage,interrupt_ratings,area,"
    yield "insulation_temperature,capacity,nominal_voltage,document,page\r\n"
    for number in range(count):
        document = f"catalogue {number % 211},page {number % 97}\r\n"
        which = chance.random()
        if which < 0.6:
            name, rating = chance.choice(CLASSES), chance.choice(RATINGS)
            breaks = f"{chance.choice([5, 10, 20])} kA @ {chance.choice([32, 58, 125])} V"
            yield (
                f"m{number % 43}-{name.lower()}-{rating}-{number:07d},fuse,{rating} A class {name} "
                f"fuse,class-{name.lower()},{rating} A,125 V,{breaks},,,,,{document}"
            )
        elif which < 0.8:
            area = chance.choice(AREAS)
            heat = chance.choice([75, 90, 105])
            yield (
                f"m{number % 43}-c{area}-{number:07d},cable,{area} mm² boat cable,,,,,{area} mm²,"
                f"{heat} °C,,,{document}"
            )
        elif which < 0.95:
            rating = chance.choice(RATINGS)
            yield (
                f"m{number % 43}-s{rating}-{number:07d},disconnect,{rating} A battery switch,,"
                f"{rating} A,,,,,,,{document}"
            )
        else:
            hours = chance.choice([50, 100, 200, 230, 280, 304])
            yield (
                f"m{number % 43}-b{hours}-{number:07d},battery,{hours} Ah pack,,,,,,,{hours} Ah,"
                f"25.6 V,{document}"
            )


@contextmanager
def timed(what: str, count: int = 0) -> Iterator[None]:
    wall, cpu = time.perf_counter(), time.process_time()
    yield
    wall, cpu = time.perf_counter() - wall, time.process_time() - cpu
    rate = f"  {count / wall:,.0f}/s, {count / cpu:,.0f}/s of processor" if count else ""
    print(f"{what:44} {wall:8.2f} s {cpu:8.2f} s{rate}", flush=True)


def asked(what: str, most: float, question: Callable[[], Any]) -> None:
    """The first answer and the median of nine more [ms], against the most allowed."""
    times = []
    for _ in range(10):
        wall, cpu = time.perf_counter(), time.process_time()
        answer = question()
        times.append(((time.perf_counter() - wall) * 1e3, (time.process_time() - cpu) * 1e3))
    wall, cpu = (median(each[place] for each in times[1:]) for place in (0, 1))
    first, count = times[0][0], len(answer)
    print(f"{what:44} {wall:8.2f} ms {cpu:7.2f} ms  first {first:.2f}, {count} parts; {most:g} ms")


def queries(shop: str) -> None:
    from catalogue.finding.by_measure import Asked, find_by_measure
    from catalogue.finding.by_words import find_by_words
    from catalogue.finding.conditions import bound, interrupt, where
    from catalogue.store import open_catalogue

    catalogue = open_catalogue(shop)
    sets = {
        "--current '>=250 A' --interrupt '>=12 kA @ 28.8 V'": (
            "fuse", (bound("fuse", "current", ">=250 A"), interrupt("fuse", ">=12 kA @ 28.8 V")),
        ),
        "the same, 20 kA @ 125 V, largest first": (
            "fuse", (bound("fuse", "current", "<=60 A"), interrupt("fuse", ">=20 kA @ 125 V")),
        ),
        "one that nothing fits: 25 kA @ 100 V": (
            "fuse", (bound("fuse", "current", "<=100 A"), interrupt("fuse", ">=26 kA @ 100 V")),
        ),
        "a rare voltage, by current": ("fuse", (where("fuse", "rated_voltage >= 126 V"),)),
        "cable, area >= 50 mm² at 105 °C": (
            "cable",
            (where("cable", "area >= 50 mm²"), where("cable", "insulation_temperature = 105 °C")),
        ),
        "battery, capacity = 280 Ah": ("battery", (where("battery", "capacity = 280 Ah"),)),
    }  # fmt: skip
    for name, (kind, conditions) in sets.items():
        sort = "rated_current" if "by current" in name else ""
        question = Asked(kind, conditions, sort, "largest" in name)
        asked(name, 5, lambda question=question: find_by_measure(catalogue, question))
    for words in ("class t 300", "4/0", "boat cable 50", "m7 class rk1 600", "switch 0000123",
                  "batt swi 300", "fuze class t"):  # fmt: skip
        text = words
        asked(f"find {text!r}", 30, lambda text=text: find_by_words(catalogue, [text]).ids)
    asked("find 't 300' among fuses", 30, lambda: find_by_words(catalogue, ["t 300"], "fuse").ids)
    catalogue.close()


def checks(shop: str) -> None:
    """The same check with and without the large catalogue."""
    file = "fixtures/systems/bench-60.yaml"
    for _ in range(2):
        for name, more in (("generic parts", []), ("a large catalogue", ["--catalogue", shop])):
            with timed(f"check of 60 circuits, {name}"):
                subprocess.run([*RUN, "check", file, *more], capture_output=True, check=False)


def main() -> None:
    parser = argparse.ArgumentParser()
    parser.add_argument("--parts", type=int, default=1_000_000)
    parser.add_argument("--keep", help="a folder whose catalogue is used again")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        place = Path(options.keep or folder)
        shop, sheet = place / "shop.sqlite", place / "parts.csv"
        if not shop.exists() or not sheet.exists():
            with sheet.open("w", encoding="utf-8", newline="") as stream:
                stream.writelines(rows(options.parts))
            from catalogue.sheets.importing import import_parts
            from catalogue.sheets.reading import parts_of_file

            # As the command line does.
            gc.disable()
            with timed("reading the sheet alone", options.parts):
                count = sum(1 for _ in parts_of_file(str(sheet)))
            with timed("import of it", count):
                import_parts(str(shop), parts_of_file(str(sheet)), by="benchmark")
            print(f"{count:,} parts, {shop.stat().st_size / 1e6:.0f} MB")
        queries(str(shop))
        checks(str(shop))


if __name__ == "__main__":
    main()
