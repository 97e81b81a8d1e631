"""Sheets as a shop has them: units in headings or cells, a row a part or a point, workbooks."""

from __future__ import annotations

import zipfile
from datetime import date

import openpyxl
import pytest

from catalogue.errors import CatalogueError
from catalogue.parts import CurrentFor, InterruptRating
from catalogue.problems import SheetError
from catalogue.sheet import read_sheet
from catalogue.sheets.grid import letter_of
from catalogue.sheets.reading import parts_of_file


def problems(text):
    with pytest.raises(SheetError) as caught:
        read_sheet(text)
    return [str(problem) for problem in caught.value.problems]


def workbook(tmp_path, *rows, title="Fuses", more=()):
    book = openpyxl.Workbook()
    page = book.active
    page.title = title
    for row in rows:
        page.append(row)
    for name, cells in more:
        book.create_sheet(name).append(cells)
    path = tmp_path / "parts.xlsx"
    book.save(path)
    return str(path)


@pytest.mark.parametrize(
    "heading",
    ["rated_current [A]", "Rated current (A)", "rated-current in A", "RATED CURRENT [A]"],
)
def test_a_unit_in_the_heading_is_that_of_bare_numbers(heading):
    (part,) = read_sheet(f"id,kind,{heading}\nx,fuse,300\n")
    assert part.rated_current == 300.0
    assert part.written == {"rated_current": "300 A"}
    (part,) = read_sheet(f"id,kind,{heading}\nx,fuse,0.3 kA\n")
    assert (part.rated_current, part.written["rated_current"]) == (300.0, "0.3 kA")


def test_a_unit_in_the_heading_of_a_band():
    (part,) = read_sheet("id,kind,resistance [mΩ]\nx,disconnect,0.1 to 0.25\n")
    assert (part.resistance.min, part.resistance.max) == (0.1e-3, 0.25e-3)


def test_a_wrong_unit_in_the_heading_is_told_once_at_the_heading():
    (line,) = problems("id,kind,rated_current [V]\nx,fuse,300\ny,fuse,400\n")
    assert line.startswith("row 1, column C (rated_current [V]): unit 'V' of rated_current")
    (line,) = problems("id,kind,notes [A]\nx,fuse,300\n")
    assert "notes takes no unit" in line


def test_one_row_a_point_grouped_by_id():
    text = (
        "id,kind,rated_current,interrupt_ratings.voltage [V],interrupt_ratings.current [kA]\n"
        "a,fuse,300 A,14,10\n"
        "b,fuse,100 A,32,2\n"
        "a,fuse,300 A,32,5\n"
        ",,,58,2\n"
    )
    first, second = read_sheet(text)
    assert first.interrupt_ratings == (
        InterruptRating(14.0, 10e3), InterruptRating(32.0, 5e3), InterruptRating(58.0, 2e3),
    )  # fmt: skip
    assert second.interrupt_ratings == (InterruptRating(32.0, 2e3),)
    assert first.written["interrupt_ratings.2.current"] == "2 kA"


def test_points_of_a_curve_and_halves_of_pairs():
    (part,) = read_sheet(
        "id,kind,rated_current,curve.min_melt.current [A],curve.min_melt.time [s],"
        "curve.max_clear.current [A],curve.max_clear.time\n"
        "a,fuse,100 A,200,100,300,10 min\na,,,400,1,,\n"
    )
    assert part.curve.fastest == ((200.0, 100.0), (400.0, 1.0))
    assert part.curve.slowest == ((300.0, 600.0),)
    (part,) = read_sheet(
        "id,kind,withstand.current,withstand.time,resistance.min [mΩ],resistance.max [mΩ]\n"
        "s,disconnect,3.6 kA,1 s,0,0.3\n"
    )
    assert part.withstand == CurrentFor(3600.0, 1.0)
    assert (part.resistance.min, part.resistance.max) == (0.0, 0.3e-3)


def test_problems_of_points_stand_at_their_own_row_and_column():
    heading = "id,kind,rated_current,interrupt_ratings.voltage [V],interrupt_ratings.current [kA]\n"
    assert problems(
        f"{heading}a,fuse,300 A,14,ten\na,fuse,400 A,32,5\nb,fuse,1 A,32,\nc,fuse,1 A,-3,1\n"
    ) == [
        "row 3, column C (rated_current): rated_current is '400 A' here, '300 A' in row 2",
        "row 2, column E (interrupt_ratings.current [kA]): 'ten' is no current: it must begin with"
        " a number; write amperes (300 A, 12.1 kA, 250 mA)",
        "row 4, column D (interrupt_ratings.voltage [V]): interrupt_ratings.0 lacks its current",
        "row 5, column D (interrupt_ratings.voltage [V]): interrupt_ratings.0.voltage must be"
        " positive",
    ]


def test_a_field_in_two_columns_is_refused():
    (line,) = problems("id,kind,resistance,resistance.min [mΩ]\nx,fuse,1 mΩ,1\n")
    assert "resistance.min is stated in two ways; the other is column C (resistance)" in line
    (line,) = problems("id,kind,notes,Notes\nx,fuse,a,b\n")
    assert "notes has two columns" in line


def test_a_text_of_a_million_signs_comes_through():
    long = "µ" * 9_999
    (part,) = read_sheet(f"id,kind,notes\nx,fuse,{long}\n")
    assert part.notes == long
    found = problems(f"id,kind,rated_current\nx,fuse,{'9' * 1_000_000}\n")
    assert len(found[0]) < 300


def test_a_workbook_with_numbers_dates_percentages_and_flags(tmp_path):
    path = workbook(
        tmp_path,
        ["id", "kind", "Rated current [A]", "reviewed", "page", "remote", "rated_voltage"],
        ["a", "fuse", 300, date(2026, 3, 2), 12, None, "58 V"],
        ["b", "fuse", 7.5, None, None, None, None],
        ["s", "disconnect", 200, None, 3.0, True, None],
    )
    first, second, third = parts_of_file(path)
    assert (first.rated_current, first.reviewed, first.page) == (300.0, "2026-03-02", "12")
    assert second.written["rated_current"] == "7.5 A"
    assert (third.remote, third.page) == (True, "3")


def test_a_percentage_of_a_workbook_keeps_its_sign(tmp_path):
    heading = ["id", "kind", "curve.average_melt", "curve.tolerance"]
    path = workbook(tmp_path, heading, ["a", "fuse", "200 A for 10 s", 0.1])
    book = openpyxl.load_workbook(path)
    book.active["D2"].number_format = "0%"
    book.save(path)
    (part,) = parts_of_file(path)
    assert (part.curve.tolerance, part.written["curve.tolerance"]) == (0.1, "10 %")


def test_problems_in_a_workbook_name_the_sheet(tmp_path):
    path = workbook(tmp_path, ["id", "kind", "rated_current"], ["a", "fuse", 300], [None] * 3)
    with pytest.raises(SheetError) as caught:
        list(parts_of_file(path))
    (problem,) = caught.value.problems
    assert str(problem).startswith("sheet Fuses, row 2, column C (rated_current): '300' has no")


def test_a_formula_counts_by_its_value_and_not_without_one(tmp_path):
    path = workbook(tmp_path, ["id", "kind", "rated_current [A]"], ["a", "fuse", "=100*3"])
    with pytest.raises(SheetError) as caught:
        list(parts_of_file(path))
    assert str(caught.value.problems[0]) == (
        "sheet Fuses, row 2, column C: a formula that has no value yet; open the sheet in its "
        "program and save"
    )


def test_of_several_sheets_one_must_be_named(tmp_path):
    path = workbook(
        tmp_path, ["id", "kind"], ["a", "fuse"], more=[("Switches", ["id", "kind"]), ("Empty", [])]
    )
    with pytest.raises(CatalogueError, match="several sheets: 'Fuses', 'Switches'; --sheet NAME"):
        parts_of_file(path)
    with pytest.raises(CatalogueError, match="no sheet 'Fuse'; did you mean 'Fuses'"):
        parts_of_file(path, sheet="Fuse")
    assert [part.id for part in parts_of_file(path, sheet="Fuses")] == ["a"]


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"", "is no workbook"),
        (b"PK\x03\x04 and no more", "is no workbook"),
        (b"id,kind\n", "is no workbook"),
    ],
)
def test_what_is_no_workbook(tmp_path, content, says):
    path = tmp_path / "x.xlsx"
    path.write_bytes(content)
    with pytest.raises(CatalogueError, match=says):
        parts_of_file(str(path))


def test_a_workbook_that_declares_entities_is_refused(tmp_path):
    path = workbook(tmp_path, ["id", "kind"], ["a", "fuse"])
    evil = tmp_path / "evil.xlsx"
    with zipfile.ZipFile(path) as old, zipfile.ZipFile(evil, "w") as new:
        for name in old.namelist():
            data = old.read(name)
            if "sheet1" in name:
                data = b'<!DOCTYPE x [<!ENTITY a "aaaa">]>' + data
            new.writestr(name, data)
    with pytest.raises(CatalogueError, match="declares entities"):
        parts_of_file(str(evil))


def test_letters_of_columns_as_spreadsheets_count_them():
    assert [letter_of(place) for place in (0, 25, 26, 51, 52, 701, 702)] == [
        "A", "Z", "AA", "AZ", "BA", "ZZ", "AAA",
    ]  # fmt: skip
