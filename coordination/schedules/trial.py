"""One row of the commissioning record, and how its amounts are put."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any, NamedTuple

from coordination.report.wording import clean, number
from coordination.schedules.facts import EMPTY, cell
from coordination.trace import Derived, Value


class Trial(NamedTuple):
    """One test.

    subject  -- name in the system file; "" for the whole system
    shown    -- what the record calls it
    expected, limit -- empty where nobody knows
    """

    test: str
    subject: str
    method: str
    expected: str = EMPTY
    limit: str = EMPTY
    shown: str = EMPTY


def on(test: str, subject: Any, method: str, expected: str = EMPTY, limit: str = EMPTY) -> Trial:
    """A test of one thing of the file."""
    return Trial(test, subject.name, method, expected, limit, clean(subject.name))


def on_all(test: str, what: str, method: str, limit: str = EMPTY) -> Trial:
    """A test of the whole installation."""
    return Trial(test, EMPTY, method, limit=limit, shown=what)


def at_most(value: Value | None) -> str:
    """ "at most 0.37 V"; empty where it is not known."""
    text = cell(value)
    return f"at most {text}" if text else EMPTY


def between(low: Value | None, high: Value | None) -> str:
    """ "1.05 mΩ to 1.9 mΩ"; empty unless both ends are known."""
    if not isinstance(low, Derived) or not isinstance(high, Derived):
        return EMPTY
    ends = [number(each.value, each.unit, each.written) for each in (low, high)]
    return " to ".join(ends)


def listed(names: Iterable[str]) -> str:
    """Names in a row, printable."""
    return ", ".join(map(clean, names))
