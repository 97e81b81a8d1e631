"""How flips are put into words."""

from __future__ import annotations

from typing import Any

import pytest

from coordination.margins.flip_words import flip_sentence, grouped
from coordination.margins.inputs import Input
from coordination.margins.shown import Shown
from coordination.margins.survey import Flip


def figure(what: str = "least resistance of bank", **more: Any) -> Input:
    """An input of 1.40 mΩ."""
    given: dict[str, Any] = {
        "what": what, "datum": "bank: resistance.min", "kind": "resistance",
        "dimension": "resistance", "unit": "Ω", "now": 1.4e-3, "written": "1.40 mΩ", "line": 3,
        "put": lambda system, _: system, **more,
    }  # fmt: skip
    return Input(**given)


def flip(before: str, after: str, *, upward: bool, better: bool, subject: str = "f") -> Flip:
    """A flip at 1.35 mΩ or 2.40 mΩ."""
    shown = Shown("2.40 mΩ", 2.4e-3) if upward else Shown("1.35 mΩ", 1.35e-3)
    return Flip("p/r", subject, before, after, 0.0, 0.0, shown, upward, better)


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (("pass", "fail", False, False), "passes until least resistance of bank < 1.35 mΩ "
         "(now 1.40 mΩ, 3.6 % less)"),
        (("fail", "pass", True, True), "fails until least resistance of bank ≥ 2.40 mΩ "
         "(now 1.40 mΩ, 71 % more)"),
        (("fail", "pass", False, True), "fails until least resistance of bank ≤ 1.35 mΩ "
         "(now 1.40 mΩ, 3.6 % less)"),
        (("unproven", "fail", True, False), "is unproven until least resistance of bank > 2.40 mΩ "
         "(now 1.40 mΩ, 71 % more), then fails"),
    ],
)  # fmt: skip
def test_a_sentence_says_from_where_on_and_how_far_off(change: Any, words: str) -> None:
    before, after, upward, better = change
    one = flip(before, after, upward=upward, better=better)
    assert flip_sentence(figure(), [one]) == f"p/r of f {words}"


def test_degrees_are_no_shares() -> None:
    air = figure("air", unit="°C", now=30.0, written="30 °C", kind="temperature")
    one = flip("pass", "fail", upward=True, better=False)._replace(shown=Shown("50.0 °C", 50.0))
    assert flip_sentence(air, [one]).endswith("> 50.0 °C (now 30 °C, 20 °C more)")


def test_many_at_one_value_are_counted() -> None:
    flips = [flip("pass", "fail", upward=True, better=False, subject=name) for name in "abcde"]
    (alike,) = grouped(flips)
    assert flip_sentence(figure(), alike).startswith("p/r of a, b, c; 2 more passes until")


def test_names_from_outside_are_made_printable() -> None:
    one = flip("pass", "fail", upward=True, better=False, subject="x\x1b[31m\u202e")
    said = flip_sentence(figure("of \x9b"), [one])
    assert said.isprintable()
    assert "x\\x1b[31m" in said
