"""Numbers stand in formulas for whole symbols only, and never for each other."""

from __future__ import annotations

import pytest
from hypothesis import given as cases
from hypothesis import strategies as st

from coordination.report.substitution import with_numbers, working
from coordination.trace import DEFINITION, Derived, given


def number(symbol: str, value: float, unit: str = "A", written: str = "") -> Derived:
    return given(symbol, symbol, value, unit, DEFINITION, written)


def step(formula: str, *inputs: Derived) -> Derived:
    return Derived("result", "x", 0.0, "A", formula, inputs)


def test_symbols_become_values_with_units() -> None:
    ohm = step("E / R", number("E", 27.2, "V"), number("R", 0.0032, "Ω"))
    assert with_numbers(ohm) == "27.2 V / 3.20 mΩ"
    assert working(ohm) == "E / R = 27.2 V / 3.20 mΩ"


def test_a_symbol_that_begins_another_is_left_in_it() -> None:
    found = step(
        "I + I_1 + I_12 + I_max", number("I", 1.0), number("I_1", 2.0), number("I_12", 3.0)
    )
    assert with_numbers(found) == "1.00 A + 2.00 A + 3.00 A + I_max"


def test_a_repeated_symbol_is_replaced_everywhere() -> None:
    found = step("R · (R + r) / (R − r)", number("R", 2.0, "Ω"), number("r", 1.0, "Ω"))
    assert with_numbers(found) == "2.00 Ω · (2.00 Ω + 1.00 Ω) / (2.00 Ω − 1.00 Ω)"


def test_a_number_put_in_is_not_taken_for_a_symbol() -> None:
    found = step("V + A", number("V", 5.0, "A"), number("A", 7.0, "V"))
    assert with_numbers(found) == "5.00 A + 7.00 V"


def test_greek_letters_functions_and_exponents() -> None:
    rise = step(
        "I·(1 − exp(−t/τ))", number("I", 8500.0), number("t", 0.001, "s"), number("τ", 0.0004, "s")
    )
    assert with_numbers(rise) == "8.50 kA·(1 − exp(−1.00 ms/400 µs))"


def test_a_raised_symbol_gets_brackets_and_a_blank_between_symbols_is_a_product() -> None:
    energy = step("I² t", number("I", 6480.0), number("t", 0.05, "s"))
    assert with_numbers(energy) == "(6.48 kA)² × 50.0 ms"
    assert with_numbers(step("k^2", number("k", 115.0))) == "(115 A)^2"


def test_inputs_that_share_a_symbol_are_used_in_their_order() -> None:
    total = step("I + I + I", number("I", 1.0), number("I", 2.0), number("I", 3.0))
    assert with_numbers(total) == "1.00 A + 2.00 A + 3.00 A"


def test_inputs_that_share_a_symbol_stay_symbols_where_nobody_knows_which_is_which() -> None:
    assert with_numbers(step("I · x", number("I", 1.0), number("I", 2.0))) == "I · x"


def test_a_value_is_shown_as_it_was_written() -> None:
    assert with_numbers(step("2 · L", number("L", 1.1, "m", "110 cm"))) == "2 · 110 cm"


def test_a_negative_value_gets_brackets_behind_an_operator() -> None:
    assert with_numbers(step("T − a", number("T", -5.0, "°C"), number("a", -2.0, "°C"))) == (
        "-5 °C − (-2 °C)"
    )


def test_without_a_formula_there_is_nothing_to_show() -> None:
    assert working(number("E", 27.2, "V")) == ""


SYMBOLS = st.lists(
    st.from_regex(r"[A-Za-zα-ω][A-Za-z0-9_]{0,3}", fullmatch=True),
    min_size=1,
    max_size=5,
    unique=True,
)


@cases(SYMBOLS, st.data())
def test_every_symbol_of_a_sum_is_replaced_by_its_own_value(
    symbols: list[str], data: st.DataObject
) -> None:
    order = data.draw(st.permutations(symbols))
    inputs = [number(symbol, index + 1.0, "") for index, symbol in enumerate(symbols)]
    shown = with_numbers(step(" + ".join(order), *inputs))
    assert [float(piece) for piece in shown.split(" + ")] == [
        symbols.index(each) + 1.0 for each in order
    ]


@pytest.mark.parametrize("symbol", ["a.b", "Σ(I)", "ΔT", "R'"])
def test_signs_in_a_symbol_are_no_pattern(symbol: str) -> None:
    assert with_numbers(step(f"2·{symbol}", number(symbol, 3.0))) == "2·3.00 A"


def test_a_letter_behind_a_digit_is_no_symbol() -> None:
    assert with_numbers(step("2e · e", number("e", 3.0))) == "2e · 3.00 A"
