"""Figures are equal within half the last digit that was written."""

from __future__ import annotations

import pytest

from coordination.rules import Source, given
from coordination.testing.case import CaseError
from coordination.testing.figures import differs

PART = Source("part data", "x")


@pytest.mark.parametrize(
    ("value", "unit", "written", "equal"),
    [
        (8549.0, "A", "8.5 kA", True),
        (8551.0, "A", "8.5 kA", False),
        (8505.1, "A", "8.50 kA", False),
        (8504.9, "A", "8.50 kA", True),
        (20_400.0, "A", "20 kA", True),
        (20_600.0, "A", "20 kA", False),
        (0.1, "m", "100 mm", True),
        (0.1004, "m", "100 mm", True),
        (0.1006, "m", "100 mm", False),
        (104.6, "°C", "105 °C", True),
        (104.4, "°C", "105 °C", False),
        (0.0032, "Ω", "3.2 mΩ", True),
        (70e-6, "m²", "70 mm²", True),
        (69e-6, "m²", "70 mm²", False),
        (1.32e6, "A²s", "1.32e6 A²s", True),
    ],
)
def test_a_value_against_a_written_figure(value, unit, written, equal):
    text = differs(given("x", "x", value, unit, PART), written)
    assert (text == "") is equal, text


@pytest.mark.parametrize(("value", "equal"), [(0.594, True), (0.596, False)])
def test_a_margin_is_a_plain_number(value, equal):
    assert (differs(value, "0.59") == "") is equal


def test_what_is_unknown_never_equals():
    assert "unknown" in differs(None, "1 A")


@pytest.mark.parametrize("written", ["many", "5 V", "5"])
def test_a_figure_that_cannot_be_compared_is_an_error_of_the_case(written):
    with pytest.raises(CaseError):
        differs(given("x", "x", 5.0, "A", PART), written)
