"""Tables before they are set: figures to the right, wide ones in pieces."""

from __future__ import annotations

from coordination.papers.table import Cell, Row, figures, parts_of, rows_of, table
from coordination.papers.values import worst
from coordination.trace import Derived, Unknown


def test_a_column_of_figures_is_told_by_what_stands_in_it() -> None:
    assert figures(["18.4 kA", "≤ 1.00 kA", "", "unknown"])
    assert figures(["0.468", "1.3"])
    assert not figures(["2026-01-01", "2026-03-02"])
    assert not figures(["0.1.0"])
    assert not figures(["port fuse", "bilge 1"])
    assert not figures([])


def test_a_wide_table_is_taken_apart_and_loses_nothing() -> None:
    heads = [f"column {n}" for n in range(12)]
    rows = rows_of([[f"name {r}", *(f"cell {r} {n}" for n in range(11))] for r in range(3)])
    pieces = parts_of(table("Wide", heads, rows), 40)
    assert len(pieces) > 1
    assert all(piece.heads[0].text == "column 0" for piece in pieces)
    assert [head.text for piece in pieces for head in piece.heads[1:]] == heads[1:]
    assert [cell.text for piece in pieces for cell in piece.rows[2].cells[1:]] == [
        f"cell 2 {n}" for n in range(11)
    ]


def test_a_row_is_reached_in_its_first_piece_only() -> None:
    row = Row(tuple(Cell("x" * 20) for _ in range(6)), "there")
    pieces = parts_of(table("Wide", list("abcdef"), [row]), 20)
    assert [piece.rows[0].place for piece in pieces] == ["there", *[""] * (len(pieces) - 1)]


def test_a_narrow_table_stays_whole() -> None:
    small = table("Small", ["a", "b"], rows_of([["1", "2"]]))
    assert parts_of(small, 40) == (small,)


def _amps(value: float) -> Derived:
    return Derived("current", "I", value, "A")


def test_the_worst_of_all_conditions_names_its_condition() -> None:
    cell = worst({"a": _amps(10.0), "b": _amps(30.0)}, lambda study: study, max)
    assert (cell.text, cell.note) == ("30.0 A", "b")


def test_what_is_unknown_in_one_condition_is_unknown() -> None:
    studies = {"a": _amps(10.0), "b": Unknown("current", ("a part: resistance",))}
    cell = worst(studies, lambda study: study, max)
    assert (cell.text, cell.note) == ("unknown", "b")


def test_what_is_alike_everywhere_needs_no_condition() -> None:
    cell = worst({"a": _amps(10.0), "b": _amps(10.0)}, lambda study: study, max)
    assert (cell.text, cell.note) == ("10.0 A", "")
