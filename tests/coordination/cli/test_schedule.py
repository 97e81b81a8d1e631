"""`fusewright schedule`: on the terminal, as CSV and as a workbook, with names that mean harm."""

from __future__ import annotations

import builtins
import csv
import io
import sys
import zipfile
from pathlib import Path
from typing import Any

import pytest

from coordination.schedules.as_csv import plain_text

openpyxl = pytest.importorskip("openpyxl")

CHECKOUT = Path(__file__).parents[3]
BENCH = CHECKOUT / "tests" / "coordination" / "schedules" / "bench.yaml"
VAN = CHECKOUT / "fixtures" / "systems" / "van-planted.yaml"
NAMES = (
    "devices", "cables", "busbars", "loads", "energy", "shore", "labels", "commissioning",
)  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("width", [80, 60, 160])
def test_the_table_keeps_to_the_width(name: str, width: int, fusewright: Any) -> None:
    ended = fusewright("schedule", name, VAN, "--width", width)
    assert (ended.status, ended.err) == (0, "")
    assert max(map(len, ended.out.splitlines())) <= width


def test_the_table_shows_what_the_report_shows(fusewright: Any) -> None:
    out = fusewright("schedule", "devices", VAN).out
    assert out.startswith("Fuses, breakers and electronic outputs\n")
    assert "5 kA at 32 V" in out
    assert "main fuse         1 fail: interrupt-rating; 5 pass" in out
    assert "Filled in on site (in the files that -o writes): holder, torque, spare aboard." in out


def test_every_band_tells_the_rows_apart(fusewright: Any) -> None:
    out = fusewright("schedule", "cables", VAN).out
    heads = [line for line in out.splitlines() if line.startswith("cable ")]
    assert len(heads) > 3
    assert all(line.split()[:2] == ["cable", "leg"] for line in heads)


def test_the_file_may_come_first(fusewright: Any) -> None:
    assert fusewright("schedule", VAN, "loads") == fusewright("schedule", "loads", VAN)


def test_a_schedule_is_of_all_conditions(fusewright: Any) -> None:
    """A label with the fault current of some conditions only would tell too little."""
    assert fusewright("schedule", "labels", VAN, "--condition", "parked").status == 2


def test_a_wrong_name_is_answered_with_a_near_miss(fusewright: Any) -> None:
    ended = fusewright("schedule", "cabels", VAN)
    assert ended.status == 2
    assert "no schedule 'cabels'" in ended.err
    assert "did you mean 'cables'?" in ended.err
    assert "devices, cables, busbars, loads, energy, shore, labels" in ended.err


@pytest.mark.parametrize("output", ["x.ods", "x"])
def test_another_format_is_refused_before_anything_is_studied(
    output: str, tmp_path: Path, fusewright: Any
) -> None:
    ended = fusewright("schedule", "loads", "nowhere.yaml", "-o", tmp_path / output)
    assert ended.status == 2
    assert "no format of a schedule" in ended.err
    assert not list(tmp_path.iterdir())


def test_csv_is_read_back_as_it_was_shown(tmp_path: Path, fusewright: Any) -> None:
    out = tmp_path / "devices.csv"
    ended = fusewright("schedule", "devices", VAN, "-o", out)
    assert ended.out == f"{out} is written: Fuses, breakers and electronic outputs, 10 rows\n"
    assert out.read_bytes().startswith(b"\xef\xbb\xbf")  # spreadsheets know UTF-8 by it
    rows = list(csv.DictReader(io.StringIO(out.read_text("utf-8-sig"), newline="")))
    assert len(rows) == 10
    assert rows[0]["device"] == "main fuse"
    assert rows[0]["interrupts"] == "5 kA at 32 V"
    assert rows[0]["spare aboard"] == ""


@pytest.mark.parametrize(
    ("cell", "written"),
    [
        ("=cmd|' /C calc'!A0", "'=cmd|' /C calc'!A0"),
        ("+1", "'+1"),
        ("-1 °C", "'-1 °C"),
        ("@SUM(1)", "'@SUM(1)"),
        ("  =1", "  '=1"),
        ("｝;=1;@x", "｝;'=1;'@x"),
        ("＝1+1", "'＝1+1"),
        ("a-b = c", "a-b = c"),
        ("12.4 V to 13.6 V", "12.4 V to 13.6 V"),
        ("", ""),
    ],
)
def test_what_might_be_a_formula_begins_with_an_apostrophe(cell: str, written: str) -> None:
    assert plain_text(cell) == written


HOSTILE = {
    "heater fuse": "=HYPERLINK(\"http://evil\")",
    "pump fuse": "+cmd|'/C calc'!A0",
    "heater cable": "@SUM(1+1)*cmd",
    "house switch": "-2+3",
    "hot bus": "a;=1+1",
    "locker": "=locker",
}


@pytest.fixture
def hostile(tmp_path: Path) -> Path:
    text = BENCH.read_text("utf-8")
    for name, evil in HOSTILE.items():
        text = text.replace(name, "'" + evil.replace("'", "''") + "'")
    path = tmp_path / "hostile.yaml"
    path.write_text(text.replace("strip", '"=family<b>"'), "utf-8")
    return path


@pytest.mark.parametrize("name", NAMES)
def test_no_name_becomes_a_formula(
    name: str, hostile: Path, tmp_path: Path, fusewright: Any
) -> None:
    sheet, book = tmp_path / "x.csv", tmp_path / "x.xlsx"
    assert fusewright("schedule", name, hostile, "-o", sheet).status == 0
    for row in csv.reader(io.StringIO(sheet.read_text("utf-8-sig"), newline="")):
        assert not any(cell.lstrip()[:1] in tuple("=+-@") for cell in row if cell), row
    assert fusewright("schedule", name, hostile, "-o", book).status == 0
    for page in openpyxl.load_workbook(book):
        for cell in (cell for line in page.iter_rows() for cell in line if cell.value is not None):
            assert (cell.data_type, cell.hyperlink) == ("s", None)
            assert cell.quotePrefix
    with zipfile.ZipFile(book) as parts:
        assert b"<f>" not in parts.read("xl/worksheets/sheet1.xml")


def test_hostile_names_keep_their_text_in_a_workbook(
    hostile: Path, tmp_path: Path, fusewright: Any
) -> None:
    book = tmp_path / "x.xlsx"
    fusewright("schedule", "devices", hostile, "-o", book)
    page = openpyxl.load_workbook(book)["devices"]
    assert page["A3"].value == "=HYPERLINK(\"http://evil\")"
    assert page["F3"].value == "=family<b>"


def test_a_workbook_is_ready_to_print_and_says_what_it_rests_on(
    tmp_path: Path, process: Any
) -> None:
    out = tmp_path / "loads.XLSX"
    ended = process("schedule", "loads", VAN, "-o", out, SOURCE_DATE_EPOCH="1772323200")
    assert (ended.status, ended.err) == (0, "")
    book = openpyxl.load_workbook(out)
    assert book.sheetnames == ["loads", "about"]
    assert (book["loads"].freeze_panes, book["loads"].print_title_rows) == ("B2", "$1:$1")
    about = {line[0].value: line[1].value for line in book["about"].iter_rows()}
    assert about["verdict"] == "FAIL: 11 fail, 3 unproven, 0 waived, 11 note, 166 pass"
    assert about["calculated"] == "2026-03-01"
    assert about["critical"] == "must stay alive (system file)"


def test_without_the_workbook_library_it_says_how_to_get_it(
    tmp_path: Path, fusewright: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = builtins.__import__

    def absent(name: str, *arguments: Any, **more: Any) -> Any:
        if name.partition(".")[0] == "openpyxl":
            raise ModuleNotFoundError("No module named 'openpyxl'", name="openpyxl")
        return real(name, *arguments, **more)

    monkeypatch.delitem(sys.modules, "coordination.schedules.as_xlsx", raising=False)
    monkeypatch.setattr(builtins, "__import__", absent)
    ended = fusewright("schedule", "loads", VAN, "-o", tmp_path / "x.xlsx")
    assert ended.status == 2
    assert "a workbook needs openpyxl, which is not installed" in ended.err
    assert "pip install 'fusewright[sheets]'" in ended.err
    assert "python3-openpyxl" in ended.err


def test_an_empty_schedule_says_so(tmp_path: Path, fusewright: Any) -> None:
    path = tmp_path / "one.yaml"
    path.write_text(
        "system: one\nnominal_voltage: 12 V\nsources: {bank: {part: battery-lfp-12v-100}}\n"
        "equipment: {lamp: {current: 1 A, critical: no}}\n"
        "circuits:\n  feed: {from: bank, to: lamp,\n"
        "    parts: [{cable: cable-4/0-awg-105c, length: 1 m}]}\n"
    )
    assert fusewright("schedule", "busbars", path).out == "Busbars and switches\n\nNone.\n"
    assert fusewright("schedule", "busbars", path, "-o", tmp_path / "x.csv").status == 0
    assert fusewright("schedule", "busbars", path, "-o", tmp_path / "x.xlsx").status == 0
