"""A deferred derivation behaves as the derivation it stands for, and waits to be looked at."""

from __future__ import annotations

from dataclasses import replace

from coordination.study.deferred import deferred
from coordination.trace import Derived, Source, derive

MADE = Derived("fault current", "J", 5.1, "A", "E / R",
               (Derived("voltage", "E", 10.0, "V"), Derived("resistance", "R", 2.0, "Ω")),
               Source("Ohm's law"))  # fmt: skip


def test_waits_for_the_first_look_and_looks_once() -> None:
    looks: list[int] = []

    def make() -> Derived:
        looks.append(1)
        return MADE

    value = deferred("I", 5.0, "A", make)
    assert (value.symbol, value.value, value.unit) == ("I", 5.0, "A")
    assert not looks
    assert value.formula == "E / R"
    assert value.inputs == MADE.inputs
    assert value.quantity == "fault current"
    assert value.source == Source("Ohm's law")
    assert value.written == ""
    assert looks == [1]


def test_number_and_symbol_are_its_own() -> None:
    value = deferred("I", 5.0, "A", lambda: MADE)
    plain = replace(MADE, symbol="I", value=5.0)
    assert value == plain
    assert plain == value
    assert hash(value) == hash(plain)
    assert repr(value) == repr(plain)
    assert value != MADE


def test_works_as_an_input_and_under_replace() -> None:
    value = deferred("I", 5.0, "A", lambda: MADE)
    assert isinstance(value, Derived)
    renamed = replace(value, symbol="I_2")
    assert type(renamed) is Derived
    assert (renamed.symbol, renamed.formula) == ("I_2", "E / R")
    double = derive(lambda amps: 2 * amps, "twice", "D", "A", "2 × I", value)
    assert isinstance(double, Derived)
    assert double.value == 10.0
    assert [step.symbol for step in double.steps()] == ["E", "R", "I", "D"]
