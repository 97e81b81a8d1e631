"""What is wrong in a sheet: all of it at once, by row and column, and nothing is changed."""

from __future__ import annotations

import pytest

from catalogue.errors import CatalogueError
from catalogue.finding.by_words import find_by_words
from catalogue.parts import Fuse
from catalogue.problems import SheetError
from catalogue.sheet import read_sheet
from catalogue.sheets.importing import import_parts
from catalogue.sheets.reading import parts_of_file
from catalogue.shop import add_parts
from catalogue.store import open_catalogue


def import_sheet(path, sheet, **options):
    return import_parts(path, parts_of_file(sheet), **options)


def problems(text):
    with pytest.raises(SheetError) as caught:
        read_sheet(text)
    return [str(problem) for problem in caught.value.problems]


def test_all_problems_of_all_rows_with_row_and_column():
    found = problems(
        "id,kind,rated_current,interrupt_ratings,poles,status\n"
        "a,fuse,300,5 kA,,drft\n"
        "b,fusee,1 A,,,\n"
        "c,breaker,3 kV,1 kA @ 32 V; 3 @ 5 V,two,draft\n"
        "d,fuse,-3 A,,1,\n"
        "d2,fuse,3 A,,,\n"
        "d2,fuse,3 A,,,\n"
        ",fuse,3 A,,,\n"
        "e,fuse,3 A,,,,surplus\n"
    )
    expected = [
        ("row 2", "D (interrupt_ratings)", "wants current @ voltage"),
        ("row 2", "C (rated_current)", "has no unit"),
        ("row 2", "F (status)", "did you mean 'draft'?"),
        ("row 3", "B (kind)", "did you mean 'fuse'?"),
        ("row 4", "C (rated_current)", "not volts"),
        ("row 4", "D (interrupt_ratings)", "has no unit"),
        ("row 4", "E (poles)", "whole number"),
        ("row 5", "E (poles)", "a fuse has no poles"),
        ("row 5", "C (rated_current)", "must be positive"),
        ("row 7", "A (id)", "stands in row 6 too"),
        ("row 8", "A (id)", "1 to 100 characters"),
        ("row 9", "", "more cells than columns"),
    ]
    for row, column, says in expected:
        place = f"{row}, column {column}: " if column else f"{row}: "
        assert any(line.startswith(place) and says in line for line in found), (place, says, found)
    assert len(found) == len(expected)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "it is empty"),
        ("id,rated_current\nx,3 A\n", "there is no column 'kind'"),
        ("id,kind,rated_curent\n", "did you mean 'rated_current'?"),
        ("id,kind,notes,notes\n", "stands twice"),
        ('id,kind,notes\nx,fuse,"open', "this is no CSV"),
        ('id,kind,notes\nx,fuse,"a"b\n', "this is no CSV"),
        ("\x00\n", "no part has a field"),
    ],
)
def test_a_sheet_that_is_none(text, says):
    assert any(says in line for line in problems(text))


def test_a_flood_of_problems_is_cut():
    found = problems("id,kind\n" + "x,nonsense\n" * 5000)
    assert len(found) == 201
    assert found[-1] == "the sheet: 4800 more problems are not listed"


def test_what_a_spreadsheet_adds_does_no_harm():
    (part,) = read_sheet("\ufeffid,kind,rated_current,poles\r\nx,fuse,3 A,\r\n,,,\r\n\r\n")
    assert (part.id, part.rated_current) == ("x", 3.0)


def test_nothing_is_imported_if_one_row_is_wrong(tmp_path):
    sheet, shop = tmp_path / "parts.csv", str(tmp_path / "shop.sqlite")
    sheet.write_text("id,kind,rated_current\na,fuse,3 A\n", encoding="utf-8")
    assert import_sheet(shop, str(sheet)).added == 1
    sheet.write_text("id,kind,rated_current\nb,fuse,3 A\nc,fuse,3\n", encoding="utf-8")
    with pytest.raises(SheetError):
        import_sheet(shop, str(sheet))
    sheet.write_text("id,kind,rated_current\nb,fuse,3 A\na,fuse,4 A\n", encoding="utf-8")
    with pytest.raises(CatalogueError, match="already in the catalogue, with other figures: 'a'"):
        import_sheet(shop, str(sheet))
    with open_catalogue(shop) as catalogue:
        assert catalogue.get("b") is None
        assert catalogue.get("a").rated_current == 3.0
    assert import_sheet(shop, str(sheet), replace=True) == (1, 1, 0)
    with open_catalogue(shop) as catalogue:
        assert catalogue.get("a").rated_current == 4.0


def test_a_sheet_of_another_encoding(tmp_path):
    sheet = tmp_path / "parts.csv"
    sheet.write_bytes("id,kind,area\nx,cable,70 mm²\n".encode("cp1252"))
    with pytest.raises(SheetError) as caught:
        import_sheet(str(tmp_path / "shop.sqlite"), str(sheet))
    assert str(caught.value.problems[0]) == "row 2: this is not UTF-8; save the sheet as CSV UTF-8"
    assert not (tmp_path / "shop.sqlite").exists()


@pytest.mark.parametrize(
    ("words", "first"),
    [
        (["class", "T", "300", "dc-marked"], "fuse-t-300-dc"),
        (["4/0", "105", "tinned"], "cable-4/0-awg-105c-tinned"),
        (["blade", "7.5", "58"], "fuse-blade-c-7.5-58v"),
        (["fuze-gg-100"], "fuse-gg-100"),
    ],
)
def test_finding_by_words(words, first):
    with open_catalogue(None) as catalogue:
        assert find_by_words(catalogue, words).ids[0] == first


def test_finding_nothing():
    with open_catalogue(None) as catalogue:
        assert find_by_words(catalogue, ["zzzzzz", "qqqqq"]).ids == []


def test_a_file_that_somebody_else_makes_meanwhile_stays_theirs(tmp_path):
    shop = str(tmp_path / "shop.sqlite")

    def slowly():
        yield Fuse(id="mine", kind="fuse")
        add_parts(shop, [Fuse(id="theirs", kind="fuse")])

    with pytest.raises(CatalogueError, match="was made by somebody else meanwhile"):
        import_parts(shop, slowly())
    with open_catalogue(shop) as catalogue:
        assert catalogue.get("theirs") is not None
        assert catalogue.get("mine") is None
    assert [path.name for path in tmp_path.iterdir() if "part" in path.name] == []


def test_a_folder_that_cannot_be_written_is_told_by_the_name_asked_for():
    with pytest.raises(CatalogueError) as caught:
        import_parts("/proc/shop.sqlite", [Fuse(id="a", kind="fuse")])
    assert "'/proc/shop.sqlite' cannot be written" in str(caught.value)
