"""The kit's small modules, and that the developers' page names each of them."""

from __future__ import annotations

from pathlib import Path
from types import SimpleNamespace

import pytest

from coordination.rules import DEFINITION, Card, Derived, Option, Source, Unknown, Value, given
from coordination.rules.kit import editions, interrupt_row, runs, several, stated, tables
from coordination.rules.kit.options import USE, Questions

ROOT = Path(__file__).parents[4]


def amps(value: float, symbol: str) -> Derived:
    return given("current", symbol, value, "A", DEFINITION)


def test_the_developers_page_names_every_module():
    modules = {file.stem for file in (ROOT / "coordination/rules/kit").glob("[!_]*.py")}
    page = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    assert len(modules) > 8
    assert [name for name in sorted(modules) if f"| `{name}` |" not in page] == []


@pytest.mark.parametrize(
    ("how", "value", "formula"),
    [
        (several.total, 90.0, "I_1 + I_2"),
        (several.smallest, 30.0, "min(I_1, I_2)"),
        (several.largest, 60.0, "max(I_1, I_2)"),
    ],
)
def test_several_values(how, value, formula):
    found = how([amps(30.0, "I_1"), amps(60.0, "I_2")], "together", "I")
    assert (found.value, found.formula, found.unit) == (value, formula, "A")
    assert how([amps(30.0, "I_1")], "together", "I") == amps(30.0, "I_1")
    unknown = how([amps(30.0, "I_1"), Unknown("current", ("fuse: rated_current",))], "both", "I")
    assert unknown.missing == ("fuse: rated_current",)


LISTED = SimpleNamespace(
    id="fuse-x",
    written={"interrupt_ratings.1.current": "5 kA"},
    interrupt_ratings=(
        SimpleNamespace(voltage=125.0, current=2000.0),
        SimpleNamespace(voltage=32.0, current=5000.0),
    ),
)


@pytest.mark.parametrize(("volts", "rating"), [(14.4, 5000), (32, 5000), (32.1, 2000), (125, 2000)])
def test_the_row_of_the_lowest_voltage_that_covers_counts(volts, rating):
    voltage = given("voltage", "U", float(volts), "V", DEFINITION)
    found = interrupt_row.interrupt_rating_at(LISTED, voltage)
    assert isinstance(found, Derived)
    assert found.value == rating
    assert found.inputs[0].written == ("5 kA" if rating == 5000 else "")


def test_above_every_row_nothing_is_known():
    voltage = given("voltage", "U", 126.0, "V", DEFINITION)
    found = interrupt_row.interrupt_rating_at(LISTED, voltage)
    assert isinstance(found, Unknown)
    assert found.missing == ("fuse-x: interrupt_ratings at >= 126 V",)


def test_a_figure_that_a_part_states_comes_with_its_place_and_text():
    part = SimpleNamespace(id="p", written={"emf.max": "27.2 V"}, emf=SimpleNamespace(max=27.2))
    found = stated.rating(part, "emf.max", "emf", "E", "V")
    assert isinstance(found, Derived)
    assert (found.value, found.written) == (27.2, "27.2 V")
    assert found.source == Source("part data", "p: emf.max")
    assert stated.rating(part, "capacity", "capacity", "Q", "A·s").missing == ("p: capacity",)


def device(distance: float | None, *, sheathed: bool | None = None) -> SimpleNamespace:
    return SimpleNamespace(name="fuse", distance=distance, sheathed=sheathed, written={})


@pytest.mark.parametrize(
    ("distance", "drawn", "length"),
    [(0.1, 0.0, 0.1), (0.1, 0.3, 0.3), (0.5, 0.3, 0.5), (None, 0.3, 0.3), (None, 0.0, None)],
)
def test_the_longer_of_what_is_stated_and_drawn_counts(distance, drawn, length):
    battery = SimpleNamespace(name="bank")
    found: tuple[Value, ...] = (
        runs.run_to(device(distance), drawn),
        runs.run_between(battery, device(distance), drawn),
    )
    assert [each.value if isinstance(each, Derived) else None for each in found] == [length] * 2


@pytest.mark.parametrize(
    ("sheaths", "whole", "silent"),
    [((True, True), True, 0), ((True, None), None, 1), ((None, False), False, 0), ((), True, 0)],
)
def test_one_bare_conductor_makes_the_way_bare_and_a_silent_one_leaves_it_open(
    sheaths, whole, silent
):
    parts = [SimpleNamespace(name=f"c{n}", sheathed=each) for n, each in enumerate(sheaths)]
    found, unsaid = runs.all_sheathed(parts)
    assert (found, len(unsaid)) == (whole, silent)


@pytest.mark.parametrize(("rated", "column"), [(59.9, None), (60, 60), (89, 75), (105, 90)])
def test_the_cooler_of_two_columns_counts(rated, column):
    limit = given("rating", "T_r", float(rated), "°C", DEFINITION)
    assert tables.column_up_to(limit, (60, 75, 90)) == column
    found = tables.insulation_column(limit, (60.0, 75.0, 90.0), "Table 9", DEFINITION)
    assert (None if isinstance(found, Unknown) else found.value) == column


def test_an_option_is_asked_for_by_its_meaning():
    hull = Option(name="hull", shape="quantity", dimension="length", meaning="its length")
    questions = Questions("yard", (USE, hull))
    silent = SimpleNamespace(option=lambda *_: None)
    (missing,) = questions.figure(silent, "hull", "l", "m").missing
    assert missing == "options: yard: hull (its length)"
    assert questions.scope_by_use(silent, "ashore only").applies is None
    afloat = SimpleNamespace(option=lambda _, name: {"use": "boat", "hull": 9.0}[name])
    assert questions.scope_by_use(afloat, "ashore only").reason == "ashore only"
    found = questions.figure(afloat, "hull", "l", "m")
    assert isinstance(found, Derived)
    assert found.value == 9.0


@pytest.mark.parametrize(("read", "severity"), [(True, "fire"), (False, "paperwork")])
def test_a_clause_that_was_not_read_is_paperwork(read, severity):
    card = Card(name="a", title="t", why="w", wrong="w", right="r", severity="fire",
                source=DEFINITION, basis="standard")  # fmt: skip
    assert editions.dated(card, Source("X:2020", "1", read=read)).severity == severity
