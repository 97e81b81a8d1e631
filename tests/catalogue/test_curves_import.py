"""`fusewright parts curve`: a curve from a CSV file, whole or not at all."""

from __future__ import annotations

import pytest
from typer.testing import CliRunner

from catalogue.building import build
from catalogue.curve_sheet import read_curve
from catalogue.problems import SheetError
from catalogue.records import Curve
from catalogue.sheet import read_sheet
from catalogue.shop import add_parts
from catalogue.store import open_catalogue
from coordination.cli.parts import app

FUSE = {
    "rated_current": "100 A", "melting_i2t": "8e6 A²s",
    "status": "reviewed", "reviewed_by": "A. Second",
}  # fmt: skip


def part(kind="fuse", **fields):
    made, problems = build("mine", kind, {**FUSE, **fields})
    assert problems == ()
    return made


def told(text, of=None, tolerance=None, gates=False):
    """Each problem of a CSV text as (row, column, what)."""
    with pytest.raises(SheetError) as caught:
        read_curve(text, of or part(), tolerance, gates)
    return [(problem.row, problem.column, problem.what) for problem in caught.value.problems]


GOOD = """boundary,current,time
fastest,150 A,100 s
fastest,1 kA,50 ms
slowest,150 A,5 min
slowest,1000 A,0.2 s
"""


def test_units_stand_in_cells_or_in_the_heading():
    curve, written = read_curve(GOOD, part(), None, False)
    expected = Curve(((150.0, 100.0), (1000.0, 0.05)), ((150.0, 300.0), (1000.0, 0.2)))
    assert curve == expected
    assert written["curve.min_melt.1.time"] == "50 ms"
    for heading in ("current [kA],time [ms]", "Current (kA),Time in ms", "current kA,time ms"):
        text = f"boundary,{heading}\nfastest,.15,1e5\nfastest,1,50\nslowest,0.15,5 min\n"
        assert read_curve(text + "slowest,1,200\n", part(), None, False)[0] == expected
    assert read_curve(text, part(), None, True)[1]["curve.min_melt.1.current"] == "1 kA"


def test_an_average_melting_curve_wants_its_tolerance():
    text = "boundary,current [A],time [s]\naverage,200,100\naverage,1000,0.1\n"
    curve, _ = read_curve(text, part(), 0.1, False)
    assert curve == Curve(average_melt=((200.0, 100.0), (1000.0, 0.1)), tolerance=0.1)
    (problem,) = told(text)
    assert problem == (0, "", "average_melt wants its tolerance, as a share of its current")
    assert "both stated" in told(text + "fastest,150,100\n", tolerance=0.1)[0][2]
    (first, *_) = told(text, of=part("breaker"), tolerance=0.1)
    assert first == (2, "boundary", "'average' is no boundary")


@pytest.mark.parametrize(
    ("old", "new", "problem"),
    [
        # Out of order: at the row that falls back.
        ("fastest,1 kA,50 ms", "fastest,100 A,50 ms",
         (3, "current", "curve.min_melt must go by rising current")),
        ("slowest,1000 A,0.2 s", "slowest,1000 A,400 s",
         (5, "time", "curve.max_clear: more current cannot take longer")),
        # Crossed at a point, at the row of the fastest side.
        ("fastest,1 kA,50 ms", "fastest,1 kA,0.3 s",
         (3, "", "curve: at 1000 A min_melt (0.3 s) is above max_clear (0.2 s)")),
        # Absurd: amperes for milliamperes and kiloamperes, seconds for years.
        ("fastest,150 A,100 s", "fastest,150 mA,0.2 s",
         (2, "current", "0.15 A against a rating of 100 A: it cannot open within 0.2 s there")),
        ("slowest,150 A,5 min", "slowest,15 A,5 min",
         (4, "current", "15 A against a rating of 100 A: it cannot open there")),
        ("slowest,1000 A,0.2 s", "slowest,1000 kA,0.2 s",
         (5, "current", "1e+06 A against a rating of 100 A is more than 1000 times")),
        ("slowest,150 A,5 min", "slowest,150 A,1100001 s",
         (4, "time", "1.1e+06 s is no time of a curve")),
        # Unreadable cells.
        ("fastest,1 kA,50 ms", "fastest,1 kA,50",
         (3, "time", "'50' has no unit: time wants seconds, minutes or hours (5 ms, 2 s, 1 h)")),
        ("fastest,1 kA,50 ms", "fastest,1 kV,50 ms", (3, "current", None)),
        ("fastest,1 kA,50 ms", "fastest,,50 ms", (3, "current", None)),
        ("fastest,1 kA,50 ms", "fastest,1 kA,0 s", (3, "time", "time must be positive")),
        ("fastest,1 kA,50 ms", "fasttest,1 kA,50 ms",
         (3, "boundary", "'fasttest' is no boundary")),
        ("fastest,1 kA,50 ms", "fastest,1 kA,50 ms,x",
         (3, "", "there are more cells than columns")),
        ("fastest,1 kA,50 ms", 'fastest,"1 kA,50 ms', None),
        # The heading.
        ("boundary,current,time", "boundary,currents,time",
         (1, "currents", "'currents' is no column")),
        ("boundary,current,time", "boundary,current,current",
         (1, "current", "column 'current' stands twice")),
    ],
)  # fmt: skip
def test_what_is_wrong_is_told_with_its_row_and_column(old, new, problem):
    assert GOOD.count(old) == 1
    found = told(GOOD.replace(old, new))
    if problem is None:
        assert any("no CSV" in what for *_, what in found)
    elif problem[2] is None:
        assert problem[:2] in [each[:2] for each in found]
    else:
        assert problem in found


def test_boundaries_that_cross_between_their_points_are_refused():
    # By hand: slowest from 150 A, 300 s to 1000 A, 0.2 s; half way in log, at 387.3 A, it is at
    # sqrt(300 x 0.2) = 7.75 s. A fastest side with a corner of 9 s there lies above it, although
    # both of its ends lie below.
    corner = GOOD.replace("fastest,1 kA", "fastest,387.3 A,{} s\nfastest,1 kA")
    (problem,) = told(corner.format(9))
    assert problem[0] == 3
    assert "at 387.3 A min_melt (9 s) is above max_clear (7.7" in problem[2]
    assert read_curve(corner.format(7), part(), None, False)[0].fastest[1] == (387.3, 7.0)
    # And a corner of the slowest side below the fastest line: there it is sqrt(100 x 0.05) = 2.24.
    dip = GOOD.replace("slowest,1000 A", "slowest,387.3 A,{} s\nslowest,1000 A")
    assert "at 387.3 A min_melt (2.2" in told(dip.format(2.1))[0][2]
    assert read_curve(dip.format(2.3), part(), None, False)


def test_gates_cross_only_where_they_promise_something():
    # Between gates 387.3 A is open by 300 s, so 9 s before opening contradict nothing.
    corner = GOOD.replace("fastest,1 kA", "fastest,387.3 A,9 s\nfastest,1 kA")
    assert read_curve(corner, part(), None, True)[0].gates


def test_an_average_less_its_tolerance_may_cross_too():
    text = "boundary,current,time\naverage,300 A,100 s\nslowest,200 A,50 s\n"
    (problem,) = told(text, tolerance=0.1)
    assert "average_melt with its tolerance (100 s) is above max_clear (50 s)" in problem[2]


def test_all_problems_come_at_once():
    text = "boundary,current,time\nfastest,x,1 s\nslowest,15 A,1 s\nslow,1 A,1 s\nslowest,9 A,2 s\n"
    assert [row for row, *_ in told(text)] == [2, 3, 4, 5, 5]


def test_an_empty_file_and_one_without_points():
    assert told("")[0][2] == "it is empty"
    assert told("boundary,current,time\n")[0][2] == "curve has no point"


def run(*arguments, status=0):
    result = CliRunner().invoke(app, [str(argument) for argument in arguments])
    assert result.exit_code == status, (result.output, result.exception)
    return result.stdout if status == 0 else result.stderr


@pytest.fixture
def shop(tmp_path, monkeypatch):
    monkeypatch.delenv("FUSEWRIGHT_CATALOGUE", raising=False)
    path = tmp_path / "shop.sqlite"
    add_parts(str(path), [part(), build("cable-mine", "cable", {"awg": "2"})[0]])
    return path


def mine(shop):
    with open_catalogue(str(shop)) as parts:
        return parts.get("mine")


def test_the_command_gives_the_part_its_curve_and_makes_it_a_draft(shop, tmp_path):
    sheet = tmp_path / "curve.csv"
    sheet.write_text(GOOD, encoding="utf-8")
    out = run("curve", "mine", sheet, "--catalogue", shop)
    assert out == f"mine has the curve of {sheet}; it is a draft now\n"
    found = mine(shop)
    assert (found.status, found.melting_i2t) == ("draft", 8000.0 * 1e3)
    assert found.curve.fastest == ((150.0, 100.0), (1000.0, 0.05))
    assert "150 A for 5 min" in run("show", "mine", "--catalogue", shop)
    assert "--replace" in run("curve", "mine", sheet, "--catalogue", shop, status=2)
    sheet.write_text("boundary,current,time\naverage,300 A,9 s\n", encoding="utf-8")
    options = ("--tolerance", "10 %", "--replace", "--catalogue", shop)
    run("curve", "mine", sheet, *options)
    assert mine(shop).curve == Curve(average_melt=((300.0, 9.0),), tolerance=0.1)
    assert mine(shop).written["curve.tolerance"] == "10 %"
    assert "curve.min_melt.0.time" not in mine(shop).written


def test_nothing_is_half_written(shop, tmp_path):
    before, sheet = mine(shop), tmp_path / "curve.csv"
    sheet.write_text(GOOD.replace("slowest,150 A", "slowest,15 A"), encoding="utf-8")
    error = run("curve", "mine", sheet, "--catalogue", shop, status=2)
    assert f"{sheet}:4" in error
    assert "column current: 15 A against a rating of 100 A: it cannot open there" in error
    assert mine(shop) == before


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("fuse-t-300",), "is generic and stays as it is"),
        (("cable-mine",), "is a cable; a fuse or a breaker has a curve"),
        (("mini",), "there is no part 'mini'"),
        (("mine", "--tolerance", "ten"), "tolerance"),
        (("mine", "--tolerance", "90 %"), "at most 50%"),
        (("mine", "--between", "dots"), "line or gates"),
    ],
)
def test_what_can_have_no_curve_is_refused(shop, tmp_path, arguments, words):
    sheet = tmp_path / "curve.csv"
    sheet.write_text(GOOD, encoding="utf-8")
    name, *options = arguments
    options += ["--replace"]
    assert words in run("curve", name, sheet, *options, "--catalogue", shop, status=2)
    assert mine(shop).curve is None


def test_sheets_of_parts_refuse_the_same_curves():
    heading = "id,kind,rated_current,curve.min_melt,curve.max_clear,curve.between\n"
    row = "x,fuse,100 A,150 A for 100 s; 1 kA for 50 ms,{}\n"
    good = heading + row.format("150 A for 300 s; 1 kA for 0.2 s,gates")
    assert read_sheet(good)[0].curve.gates
    for cells, column, words in (
        ("150 A for 9 s,line", "curve.min_melt", "at 150 A min_melt (100 s) is above"),
        ("15 A for 300 s,line", "curve.max_clear", "it cannot open there"),
        ("150 A for 300 s,dots", "curve.between", "'dots' is no curve.between"),
    ):
        with pytest.raises(SheetError) as caught:
            read_sheet(heading + row.format(cells))
        (problem,) = caught.value.problems
        assert (problem.row, problem.column) == (2, column)
        assert words in problem.what
