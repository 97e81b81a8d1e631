"""What is exported is imported as it was: CSV, workbook and JSON, whatever the texts hold."""

from __future__ import annotations

import csv
import io
import json
import zipfile
from dataclasses import replace

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from catalogue.building import build
from catalogue.errors import CatalogueError
from catalogue.parts import KINDS, Fuse
from catalogue.sheets.reading import parts_of_file
from catalogue.sheets.writing import as_csv, as_json, as_xlsx

#: What a spreadsheet runs, a terminal obeys, a browser shows, XML cannot hold, and openpyxl loses.
HOSTILE = [
    "=1+1", "+1", "-1", "@SUM(A1)", "'=1", "''", "\t=1", "=cmd|' /C calc'!A0", "x\ny", 'a"b', "a;b",
    "\x1b[31mred\x1b[0m", "bell\x07", "a\rb", "\x85", "\ufeffx", "\ufffe", "_x001B_",
    "<script>alert(1)</script>", "a|b", "\u202egnp.exe\u202c", "_x000D_", "_x005F_x000D_", "x005F_",
    "00123", "1e5", "TRUE", "2026-03-02", "#N/A", "#DIV/0!", "é\u0301", "🔥", " a", "a ", "NULL",
    "1,5",
]  # fmt: skip
texts = st.one_of(
    st.sampled_from(HOSTILE),
    st.text(st.characters(exclude_categories=("Cs",), exclude_characters="\0"), min_size=1,
            max_size=30).filter(lambda text: text.strip()),
)  # fmt: skip
WRITERS = {
    "csv": lambda parts: as_csv(parts).encode(),
    "json": lambda parts: as_json(parts).encode(),
    "xlsx": as_xlsx,
}
FIGURES = {
    "fuse": {"rated_current": "0.3 kA", "curve": {"min_melt": [["400 A", "1 h"]],
             "between": "gates"}, "interrupt_ratings": [{"voltage": "32 V", "current": "5 kA"}]},
    "breaker": {"poles": "2", "trip_free": "yes", "derating": [["25 °C", "1"], ["60 °C", "80 %"]]},
    "cable": {"awg": "4/0", "resistance_20c": {"min": "0.16 mΩ/m", "max": "0.05 ohm/kft"}},
    "busbar": {"width": "3/4 in", "short_time": {"current": "5 kA", "time": "1 s"}},
    "disconnect": {"intermittent": [{"current": "400 A", "time": "5 min"}], "remote": "no"},
    "channel": {"trip_current": "12 A", "fails_shorted": "no", "resistance": "3 mΩ"},
    "battery": {"resistance": "3.2 mΩ", "discharge": {"continuous": "200 A", "peak":
                {"current": "400 A", "time": "10 s"}}, "emf": {"min": "25 V", "max": "27 V"}},
}  # fmt: skip


@st.composite
def parts(draw):
    kind = draw(st.sampled_from(sorted(KINDS)))
    named = texts.filter(lambda text: text.isprintable() and text == text.strip())
    names = draw(st.lists(st.sampled_from(["description", "document", "page", "notes"])))
    figures = {name: FIGURES[kind][name] for name in FIGURES[kind] if draw(st.booleans())}
    part, found = build(draw(named), kind, {**figures, **{name: draw(texts) for name in names}})
    assert found == ()
    return part


@pytest.mark.parametrize("ending", WRITERS)
def test_export_then_import_is_the_identity(ending, tmp_path):
    path = tmp_path / f"parts.{ending}"

    @settings(deadline=None, max_examples=40,
              suppress_health_check=[HealthCheck.function_scoped_fixture])  # fmt: skip
    @given(st.lists(parts(), min_size=1, max_size=4, unique_by=lambda part: part.id))
    def check(listed):
        content = WRITERS[ending](listed)
        path.write_bytes(content)
        assert list(parts_of_file(str(path))) == listed
        # A workbook holds the time it was made at.
        assert ending == "xlsx" or WRITERS[ending](listed) == content

    check()


@pytest.mark.parametrize("ending", WRITERS)
@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_texts_come_back_and_do_nothing(ending, text, tmp_path):
    part, found = build("x", "fuse", {"notes": text, "description": f"{text}{text}"})
    assert found == ()
    path = tmp_path / f"parts.{ending}"
    path.write_bytes(WRITERS[ending]([part]))
    assert list(parts_of_file(str(path))) == [part]
    if ending == "csv":
        cells = [c for row in csv.reader(io.StringIO(path.read_text(), newline="")) for c in row]
        assert not [cell for cell in cells if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]
    if ending == "xlsx":
        book = openpyxl.load_workbook(path)
        assert {cell.data_type for row in book.active.iter_rows() for cell in row} == {"s"}
        with zipfile.ZipFile(path) as archive:
            assert b"<f>" not in archive.read("xl/worksheets/sheet1.xml")


def test_every_generic_part_survives_every_format(every, tmp_path):
    mine = [replace(part, origin="shop") for part in every]
    for ending, write in WRITERS.items():
        path = tmp_path / f"parts.{ending}"
        path.write_bytes(write(mine))
        assert list(parts_of_file(str(path))) == mine


@pytest.mark.parametrize("sign", ["n", "=", "\x07", "🔥", "_x0041_", "\n"])
def test_a_text_longer_than_a_cell_of_a_workbook_goes_on_in_the_next(sign, tmp_path):
    long = f"a{sign * 100_000}z"
    listed = [
        Fuse(id="x", kind="fuse", origin="shop", notes=long, page="7"),
        Fuse(id="y", kind="fuse", origin="shop", notes="short"),
    ]
    path = tmp_path / "parts.xlsx"
    path.write_bytes(as_xlsx(listed))
    assert list(parts_of_file(str(path))) == listed
    book = openpyxl.load_workbook(path)
    assert [cell.value for cell in book.active[1]][:5] == ["id", "kind", "page", "notes", "notes+2"]
    assert max(len(cell.value or "") for row in book.active.iter_rows() for cell in row) < 32_768


def test_a_column_that_goes_on_with_nothing_is_refused(tmp_path):
    path = tmp_path / "x.csv"
    path.write_text("id,kind,notes,page+2,notes+3\nx,fuse,a,b,c\n")
    with pytest.raises(CatalogueError) as caught:
        list(parts_of_file(str(path)))
    assert [str(problem) for problem in caught.value.problems] == [
        "row 1, column D (page+2): 'page+2' goes on with no column before it",
        "row 1, column E (notes+3): 'notes+3' goes on with no column before it",
    ]


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ('{"format": "fusewright parts"', "row 1: this is no JSON"),
        ("[]", 'the sheet: this is no file of parts: it lacks "format"'),
        ('{"format": "fusewright parts", "version": 2, "parts": []}', "version 2 is not read here"),
        ('{"format": 1, "format": 2}', "a key stands twice"),
        ("[" * 100_000, "nested too deeply"),
    ],
)
def test_a_json_file_that_is_none(content, says, tmp_path):
    path = tmp_path / "x.json"
    path.write_text(content)
    with pytest.raises(CatalogueError) as caught:
        list(parts_of_file(str(path)))
    assert says in str(caught.value.problems[0])


def test_all_that_is_wrong_in_a_json_file(tmp_path):
    path = tmp_path / "x.json"
    entries = [
        {"id": "a", "kind": "fuse", "rated_current": 300},
        {"id": "b", "kind": "fuze"},
        {"id": "c", "kind": "fuse", "rated_curent": "3 A", "notes": ["x"]},
        {"id": "d", "kind": "fuse"},
        {"id": "d", "kind": "fuse"},
        {"kind": "fuse"},
        7,
    ]
    path.write_text(json.dumps({"format": "fusewright parts", "version": 1, "parts": entries}))
    with pytest.raises(CatalogueError) as caught:
        list(parts_of_file(str(path)))
    assert [str(problem) for problem in caught.value.problems] == [
        "the sheet: parts[0].rated_current (a): rated_current wants a quantity, not int",
        "the sheet: parts[1].kind (b): 'fuze' is no kind of part; did you mean 'fuse'?",
        "the sheet: parts[2].rated_curent (c): a fuse has no field 'rated_curent'; did you mean "
        "'rated_current'?",
        "the sheet: parts[2].notes (c): notes wants a text, not list",
        "the sheet: parts[4]: 'd' is parts[3] too",
        "the sheet: parts[5] lacks its id or its kind, as a text",
        'the sheet: parts[6] is no part; write {"id": ..., "kind": ...}',
    ]
