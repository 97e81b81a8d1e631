"""Names from a file as they stand on a chart: printable, and of a length that fits."""

from __future__ import annotations

from coordination.report.wording import clean

#: Longest name that is printed in full.
LONGEST_NAME = 34
#: Shares nearer to 1 than this are drawn, and told, as 1.
WHOLE = 1e-3


def short(name: str) -> str:
    """A name, cut where it would not fit."""
    name = clean(name)
    return name if len(name) <= LONGEST_NAME else name[: LONGEST_NAME - 1] + "…"
