"""How much protection lets meet on a busbar: currents added up by hand."""

from __future__ import annotations

import pytest
from fusewright_fundamentals.busbar_bound import MOST_COMBINED, largest_through
from fusewright_fundamentals.busbar_branches import Branch

from coordination.rules import DEFINITION, Derived, Unknown, Value, given


def amperes(value: float, symbol: str) -> Value:
    return given("limit", symbol, value, "A", DEFINITION)


def source(name: str, current: float) -> Branch:
    """A self-limiting source: gives, takes nothing."""
    return Branch(name, True, False, False, amperes(current, f"I_{name}"), None, current)


def battery(name: str, rating: float) -> Branch:
    limits = amperes(rating, f"I_{name}"), amperes(rating, f"O_{name}")
    return Branch(name, True, False, True, *limits)


def link(name: str, rating: float, charge: float = 0.0) -> Branch:
    """Another bar, with batteries, consumers and perhaps chargers on it."""
    limits = amperes(rating, f"I_{name}"), amperes(rating, f"O_{name}")
    return Branch(name, True, True, False, *limits, charge)


def load(name: str, rating: float) -> Branch:
    return Branch(name, False, True, False, None, amperes(rating, f"O_{name}"))


BARE_BATTERY = Branch("bare", True, False, True, None, None)
BARE_LOAD = Branch("bare load", False, True, False, None, None)


@pytest.mark.parametrize(
    ("branches", "expected"),
    [
        # One 300 A feed; 250 + 100 A of branch fuses: the feed is smaller.
        ([battery("a", 300), load("x", 250), load("y", 100)], 300),
        # One 300 A feed; 100 A of branch fuses: the branches are smaller.
        ([battery("a", 300), load("x", 60), load("y", 40)], 100),
        # Two 200 A batteries, 500 A of loads: both feed the loads.
        ([battery("a", 200), battery("b", 200), load("x", 500)], 400),
        # Four 125 A batteries behind a 200 A main: what one gives another soon dies away.
        ([battery(n, 125) for n in "abcd"] + [load("main", 200)], 200),
        # 150 + 100 A of chargers into one 300 A battery beside a 50 A load: min(250, 50 + 250).
        ([source("c", 150), source("d", 100), battery("a", 300), load("x", 50)], 250),
        # The same chargers and a 100 A battery: it takes no more, min(250, 50 + 100).
        ([source("c", 150), source("d", 100), battery("a", 100), load("x", 50)], 150),
        # A link that gives 200 A from its own batteries, or takes 200 A for its own loads:
        # battery and link feed 150 A, or the battery feeds link and load: min(300, 200 + 150).
        ([battery("a", 300), link("l", 200), load("x", 150)], 300),
        # With 80 A of chargers on the link it gives at most min(200, 10 + 80), yet takes 200 + 10.
        ([battery("a", 300), link("l", 200, 80), load("x", 10)], 210),
        # A battery with no device: the branches alone bound it, 60 + 40.
        ([BARE_BATTERY, load("x", 60), load("y", 40)], 100),
        # Two of them: no lasting current between batteries.
        ([BARE_BATTERY, BARE_BATTERY, load("x", 60)], 60),
        # A charger of 150 A into a battery with no device, beside 60 A of load.
        ([source("c", 150), BARE_BATTERY, load("x", 60)], 150),
        # A load with no device: the feed alone bounds it.
        ([battery("a", 300), BARE_LOAD], 300),
        # Nothing to feed.
        ([battery("a", 300)], 0),
    ],
)
def test_largest_through_without_order(branches: list[Branch], expected: float) -> None:
    bound = largest_through(branches, in_order=False)
    assert isinstance(bound, Derived)
    assert bound.value == expected


@pytest.mark.parametrize(
    ("branches", "expected"),
    [
        # 600 A in the middle, 350 A of fuses on each side: no section sees more than 350.
        ([load("x", 350), battery("a", 600), load("y", 350)], 350),
        # The same at the end of the bar: the first section sees min(600, 700).
        ([battery("a", 600), load("x", 350), load("y", 350)], 600),
        # Two 200 A feeds at the ends, 150 A loads between: left section min(200, 300).
        ([battery("a", 200), load("x", 150), load("y", 150), battery("b", 200)], 200),
        # A 120 A charger at one end, its battery at the other.
        ([source("c", 120), load("x", 20), battery("a", 200)], 120),
        # One circuit alone has no section.
        ([battery("a", 600)], 0),
    ],
)
def test_largest_through_by_order(branches: list[Branch], expected: float) -> None:
    bound = largest_through(branches, in_order=True)
    assert isinstance(bound, Derived)
    assert bound.value == expected


@pytest.mark.parametrize("in_order", [True, False])
def test_nothing_limits(in_order: bool) -> None:
    branches = [BARE_BATTERY, BARE_LOAD, load("x", 60)]
    assert largest_through(branches, in_order=in_order) is None


def test_unknown_rating_is_named() -> None:
    unknown = Branch("u", False, True, False, None, Unknown("limit", ("fuse-x: rated_current",)))
    bound = largest_through([battery("a", 300), unknown], in_order=False)
    assert isinstance(bound, Unknown)
    assert bound.missing == ("fuse-x: rated_current",)


def test_too_many_to_combine_errs_high() -> None:
    """Every link counted as giver and taker at once: 12 × 100 A, never less than the truth."""
    many = [link(f"n{n}", 100) for n in range(MOST_COMBINED + 2)]
    bound = largest_through(many, in_order=False)
    assert isinstance(bound, Derived)
    assert bound.value == 1200


def test_formula_names_only_its_inputs() -> None:
    bound = largest_through([battery("a", 300), load("x", 250), load("y", 100)], in_order=False)
    assert isinstance(bound, Derived)
    assert bound.formula == "min(C, L)"
    assert [step.formula for step in bound.inputs] == ["I_a", "O_x + O_y"]
