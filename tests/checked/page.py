"""The page: a table of the checks, every comparison below, and the tables that are copied."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Iterator, Sequence
from pathlib import Path

from tests.checked.checks import CHECKS
from tests.checked.comparison import STATES, Check, Comparison, Row, largest

ROOT = Path(__file__).parents[2]
PAGE = Path(__file__).with_name("CHECKED.md")
#: Where figures are kept that packs and the generic parts take from publications.
COPIED = ("catalogue/generic", "plugins/*/tables")

HEAD = """# What is checked against what

Made by `python -m tests.checked`; a test fails when it is stale. Published figures are held to what
our code computes, row by row. *Read*: the text itself, or a copy of the table, was read; *from
memory*: it was not, and whoever relies on it looks it up; *by hand*: a sum anybody can repeat.
A deviation is ours over the printed figure, less one. A deviation is no verdict: ours may rest on
another basis (its remark says so), and codes are checked by their own tables, never by our physics.

Beside these, `tests/oracle` holds every current to ngspice and every pass of generated systems to a
second judge of its own code, and each rule's `cases/*.yaml` names the origin of its figures.
"""


def page() -> str:
    """The whole page as Markdown."""
    found = [(check, tuple(check.comparisons())) for check in CHECKS]
    return "\n".join([HEAD, *_summary(found), *_copied(), *_details(found)]) + "\n"


def _summary(found: Sequence[tuple[Check, Sequence[Comparison]]]) -> Iterator[str]:
    yield "## Computed\n"
    yield "| what | figures | read | deviation from | to | furthest at | remark |"
    yield "| --- | ---: | ---: | ---: | ---: | --- | --- |"
    for check, rows in found:
        states = Counter(each.state for each in rows)
        low = min(each.deviation for each in rows)
        high = max(each.deviation for each in rows)
        yield (
            f"| [{check.title}](#{_anchor(check.title)}) | {len(rows)} | {states['read']} "
            f"| {_share(low)} | {_share(high)} | {largest(rows).what} | {check.remark} |"
        )


def _copied() -> Iterator[str]:
    yield "\n## Copied\n"
    yield (
        "Figures that rules and generic parts take as they are printed. The tests beside each pack "
        "and in `tests/catalogue` type them a second time and hold every cell to it. Neither: "
        "invented, common practice, or no figure of a publication.\n"
    )
    yield "| table | rows | read | from memory | neither | source |"
    yield "| --- | ---: | ---: | ---: | ---: | --- |"
    for path in sorted(path for each in COPIED for path in ROOT.glob(f"{each}/*.csv")):
        with path.open(newline="", encoding="utf-8") as stream:
            rows = list(csv.DictReader(stream))
        states = Counter(map(_state, rows))
        sources = "; ".join(dict.fromkeys(row["source"] for row in rows if row.get("source")))
        name = path.relative_to(ROOT).as_posix()
        counts = " | ".join(str(states[state]) for state in ("read", "from memory", "neither"))
        yield f"| `{name}` | {len(rows)} | {counts} | {_cell(sources)} |"


def _state(row: Row) -> str:
    """Whether a row was read, by its own column or by the words of its source."""
    if row.get("read"):
        return STATES[row["read"]]
    source = row.get("source") or ""
    if "from memory" in source:
        return "from memory"
    return "read" if "read" in source else "neither"


def _details(found: Sequence[tuple[Check, Sequence[Comparison]]]) -> Iterator[str]:
    yield "\n## Every figure\n"
    for check, rows in found:
        yield f"### {check.title}\n"
        yield f"| row | printed{_unit(check)} | ours{_unit(check)} | deviation | source | |"
        yield "| --- | ---: | ---: | ---: | --- | --- |"
        for each in rows:
            yield (
                f"| {_cell(each.what)} | {each.printed:g} | {each.ours:.5g} "
                f"| {_share(each.deviation)} | {_cell(each.source)} | {each.state} |"
            )
        yield ""


def _unit(check: Check) -> str:
    return f" [{check.unit}]" if check.unit else ""


def _share(value: float) -> str:
    return f"{value * 100:+.2f} %".replace("-0.00", "0.00").replace("+0.00", "0.00")


def _cell(text: str) -> str:
    return text.replace("|", "\\|")


def _anchor(title: str) -> str:
    kept = (sign for sign in title.lower() if sign.isalnum() or sign in " -")
    return "".join(kept).replace(" ", "-")
