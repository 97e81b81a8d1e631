"""The selectivity table: per condition, which of two devices in series opens first, and how far."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from coordination import __version__
from coordination.report.colour import Paint, plain
from coordination.report.lines import NARROWEST, wrapped
from coordination.report.pair_rows import PairRow
from coordination.report.tables import columns, markdown_safe, markdown_table
from coordination.report.wording import UNKNOWN, amount, clean, number
from coordination.trace import Derived, Value

Rows = Mapping[str, Sequence[PairRow]]

_HEADERS = ("downstream", "upstream", "share", "up to", "gap at", "max fault", "verdict")
_ALIGN = "llrrrrl"
#: What stands where there is nothing to tell.
_NONE = "-"
_READING = (
    "A pair passes where the downstream device has always cleared before the upstream one can "
    "open. share: the upstream device's part of the fault current; up to: largest fault current "
    "up to which that is proven; gap at: the lowest at which it is not; max fault: the largest "
    "that can flow. All currents are those through the downstream device.",
    "either: nothing else is fed between the two, so it is all one which of them opens.",
)


def pairs_report(rows: Rows, width: int, paint: Paint = plain) -> str:
    """A table a condition, what is missing for the unproven pairs, and how to read it."""
    width = max(width, NARROWEST)
    lines: list[str] = []
    for name, several in rows.items():
        lines += ["", paint("heading", f"Condition {clean(name)}"), *_condition(several, width)]
    lines += ["", *(line for text in _READING for line in wrapped(text, width))]
    return "\n".join(lines[1:]) + "\n"


def _condition(rows: Sequence[PairRow], width: int) -> Iterator[str]:
    if not rows:
        yield from ("", "No two devices stand in series.")
        return
    yield from ("", *columns([_cells(row) for row in rows], _HEADERS, _ALIGN, width))
    missing = _missing(rows)
    if missing:
        yield from ("", "Unproven for want of:")
        yield from (
            line for what in missing for line in wrapped(clean(what), width, "  - ", "    ")
        )


def pairs_markdown(rows: Rows) -> str:
    """The same as markdown."""
    lines: list[str] = []
    for name, several in rows.items():
        lines += ["", f"## Condition {markdown_safe(clean(name))}", ""]
        if not several:
            lines.append("No two devices stand in series.")
            continue
        lines.append(markdown_table([_cells(row) for row in several], _HEADERS, _ALIGN))
        if missing := _missing(several):
            lines += ["", "Unproven for want of:", ""]
            lines += [f"- {markdown_safe(clean(what))}" for what in missing]
    return "\n".join([*lines[1:], "", *_READING]) + "\n"


def pairs_answer(rows: Rows, system: str, file: str) -> dict[str, Any]:
    """The same as plain dictionaries: SI floats, None for what is not known."""
    return {
        "fusewright": __version__,
        "system": system,
        "file": file,
        "conditions": {
            name: {"pairs": [_entry(row) for row in several]} for name, several in rows.items()
        },
    }


def _entry(row: PairRow) -> dict[str, Any]:
    return {
        "downstream": row.downstream,
        "upstream": row.upstream,
        "fault_towards": row.towards,
        "share": _float(row.share),
        "low_A": _float(row.low),
        "fault_max_A": _float(row.high),
        "proven_up_to_A": row.proven_up_to,
        "first_gap_A": row.first_gap,
        "either_may_open": row.alone,
        "verdict": row.verdict,
        "missing": list(row.missing),
    }


def _float(value: Value) -> float | None:
    return value.value if isinstance(value, Derived) else None


def _cells(row: PairRow) -> tuple[str, ...]:
    return (
        clean(row.downstream),
        clean(row.upstream),
        f"{row.share.value:.0%}" if isinstance(row.share, Derived) else UNKNOWN,
        _current(row.proven_up_to),
        _current(row.first_gap),
        amount(row.high),
        "either" if row.alone else row.verdict,
    )


def _current(value: float | None) -> str:
    return _NONE if value is None else number(value, "A")


def _missing(rows: Sequence[PairRow]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(what for row in rows for what in row.missing))
