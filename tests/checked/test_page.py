"""The page is up to date, leaves no published table out, and promises no more than holds."""

from __future__ import annotations

import pytest

from tests.checked.checks import CHECKS
from tests.checked.comparison import PUBLISHED, Check
from tests.checked.page import PAGE, page


def test_the_page_is_not_stale() -> None:
    assert PAGE.read_text("utf-8") == page(), "run: python -m tests.checked"


def test_every_published_table_is_on_it() -> None:
    tables = {path.stem for path in PUBLISHED.glob("*.csv")}
    assert tables == {check.table for check in CHECKS}


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.title)
def test_deviations_lie_where_the_check_says(check: Check) -> None:
    found = list(check.comparisons())
    assert found
    for each in found:
        assert check.low <= each.deviation <= check.high, each


def test_what_is_from_memory_says_so() -> None:
    text = PAGE.read_text("utf-8")
    assert "| from memory |" in text.partition("## Every figure")[2]
    rows = [line for line in text.splitlines() if "method F" in line and "| read |" in line]
    assert rows
