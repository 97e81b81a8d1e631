"""Nothing is lost between a part, the database and a sheet."""

from __future__ import annotations

import csv
import io
from dataclasses import fields, replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from catalogue.building import build
from catalogue.cells import columns_for, every_column, from_cells, to_cells
from catalogue.changes import change_by
from catalogue.checks import problems_of
from catalogue.described import IN_FILES_ONLY
from catalogue.layout import RECORDS, averaged, described
from catalogue.parts import KINDS, Band, CurrentFor, Curve, Discharge
from catalogue.revisions import canonical, digest_of, part_of
from catalogue.saving import save
from catalogue.sheet import guarded, read_sheet, unguarded, write_sheet
from catalogue.shop import add_parts
from catalogue.store import Store, open_catalogue
from catalogue.writing import open_for_change

NOW = change_by("a test")
positive = st.floats(1e-9, 1e12)
temperature = st.floats(-200, 1900)
factor = st.floats(1e-3, 10)
#: Anything printable, formulas and quotes of spreadsheets often among it.
texts = st.text(
    st.one_of(
        st.sampled_from("=+-@'\",;\n\t|"),
        st.characters(exclude_categories=("C", "Z"), include_characters=" "),
    ),
    min_size=1,
    max_size=40,
).filter(lambda text: text.strip(" \t\r\n") and not text.isspace())


def value(dimension):
    return {"temperature": temperature, "factor": factor}.get(dimension, positive)


def falling(firsts, seconds):
    """Pairs of which the first rises and the second falls."""
    return st.lists(st.tuples(firsts, seconds), min_size=1, max_size=4).map(
        lambda rows: tuple(
            zip(
                sorted({row[0] for row in rows}),
                sorted((row[1] for row in rows), reverse=True),
                strict=False,
            )
        )
    )


#: Currents of a curve of a device rated 1 A, and times of its points [s].
currents, times = st.floats(1, 900), st.floats(1e-9, 1e5)
curves = st.one_of(
    falling(currents, times).map(lambda points: Curve(points, ())),
    st.builds(lambda points, gates: Curve((), points, gates), falling(currents, times),
              st.booleans()),
    # The time of the first and slowest point, ten times over, lies above a curve everywhere.
    st.builds(
        lambda points, gates: Curve(points, ((points[0][0], 10 * points[0][1]),), gates),
        falling(currents, times), st.booleans(),
    ),
)  # fmt: skip
averages = st.builds(
    lambda points, tolerance: Curve((), (), False, points, tolerance),
    falling(currents, st.floats(1, 1e5)), st.floats(0.01, 0.5),
)  # fmt: skip


def of(field):
    """Any value the field may have."""
    meta, shape = field.metadata, field.metadata["shape"]
    if field.name == "rated_current":
        return st.just(1.0)
    if shape == "quantity" and field.name != "area":
        return value(meta["dimension"])
    if shape == "band":
        return st.lists(positive, min_size=2, max_size=2).map(lambda both: Band(*sorted(both)))
    if shape == "mapping":
        make = RECORDS[tuple(column for column, _ in meta["columns"])]
        return st.builds(make, positive, positive)
    if shape == "discharge":
        peak = st.builds(CurrentFor, positive, positive)
        return st.one_of(
            st.builds(Discharge, positive, st.none() | peak), st.builds(Discharge, st.none(), peak)
        )
    if shape == "curve":
        return curves | averages if averaged(field) else curves
    if shape == "mappings":
        make = RECORDS[tuple(column for column, _ in meta["columns"])]
        rows = st.lists(st.tuples(positive, positive), max_size=4, unique_by=lambda row: row[0])
        return rows.map(lambda found: tuple(make(*row) for row in found))
    if shape == "pairs":
        return falling(temperature, factor)
    if shape == "choice":
        return st.sampled_from(meta["choices"])
    if shape == "flag":
        return st.booleans()
    if shape == "whole":
        return st.integers(1, 10_000)
    if shape == "date":
        return st.dates().map(str)
    if field.name in ("area", "awg", "successor"):
        return st.none()
    return texts


@st.composite
def parts(draw, kind):
    """Any part of the kind that the catalogue takes."""
    values = {
        field.name: draw(of(field)) for field in described(kind) if draw(st.booleans())
    }
    part_id = draw(texts.filter(lambda text: text.isprintable() and text == text.strip()))
    if kind == "cable" and draw(st.booleans()):
        size = draw(st.sampled_from(["4/0", "1", "18"]))
        part, _ = build(part_id, kind, {"awg": size})
        values |= {"awg": size, "area": part.area}
    if values.get("status") == "retired" and draw(st.booleans()):
        values["successor"] = f"{part_id[:90]}-new"
    return KINDS[kind](id=part_id, kind=kind, origin="shop", **values)


def without_text(part):
    """The part without the record of how its quantities were written."""
    return replace(part, written={})


relaxed = settings(
    deadline=None, max_examples=20, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


@pytest.mark.parametrize("kind", KINDS)
def test_a_part_survives_the_database(kind, tmp_path):
    @relaxed
    @given(parts(kind))
    def check(part):
        assert problems_of(part) == ()
        path = tmp_path / "x.sqlite"
        with open_for_change(path) as db:
            save(db, [part], NOW)
        store = Store(str(path), "shop")
        assert store.get(part.id) == part
        assert part_of(canonical(part)) == part
        assert store.revision_of(part.id)[1] == digest_of(store.get(part.id))
        store.close()

    check()


@pytest.mark.parametrize("kind", KINDS)
def test_a_part_survives_a_sheet(kind):
    @relaxed
    @given(st.lists(parts(kind), min_size=1, max_size=3, unique_by=lambda part: part.id))
    def check(listed):
        sheet = write_sheet(listed)
        again = read_sheet(sheet)
        assert [without_text(part) for part in again] == listed
        assert write_sheet(again) == sheet
        # Once every quantity has a text, the text survives as well.
        assert read_sheet(write_sheet(again)) == again

    check()


def test_the_strategies_state_every_field():
    for kind in KINDS:
        names = {field.name for field in described(kind)}
        common = {"id", "kind", "origin", "line", "written", "extra"}
        of_files = {f.name for f in fields(KINDS[kind]) if IN_FILES_ONLY in f.metadata}
        assert names == {field.name for field in fields(KINDS[kind])} - common - of_files


def export_sheet(catalogue):
    return write_sheet(catalogue.get(part_id) for part_id in catalogue.ids())


def test_export_import_export_is_the_same_for_all_generic_parts(tmp_path):
    with open_catalogue(None) as generic:
        first = export_sheet(generic)
        ids = list(generic.ids())
        path = str(tmp_path / "shop.sqlite")
        assert add_parts(path, read_sheet(first)).added == len(ids)
        with open_catalogue(path) as shop:
            assert export_sheet(shop) == first
            for part_id in ids:
                mine = shop.get(part_id)
                assert mine.origin == "shop"
                assert replace(mine, origin="generic") == generic.get(part_id)


WRITTEN = {
    "fuse": {
        "family": "class-t", "rated_current": "300 A", "rated_voltage": "0.058 kV",
        "interrupt_ratings": "5 kA @ 58 V; 10000 A @ 14 V", "melting_i2t": "12e6 A²s",
        "resistance": "0.1 mΩ to 240 µΩ", "terminal_limit": "194 °F",
        "derating": "100 % @ 25 °C; 0.8 @ 60 °C", "curve.min_melt": "400 A for 1 h; 2 kA for 50 ms",
        "curve.max_clear": "3 kA for 10 min", "curve.between": "gates", "notes": "=1+1",
    },
    "cable": {
        "area": "4/0 AWG", "awg": "4/0", "insulation_temperature": "221 °F",
        "resistance_20c": "0.049 ohm/kft to 0.17 mΩ/m", "outside_diameter": "3/4 in",
    },
    "battery": {
        "capacity": "230 Ah", "resistance": "3.2 mΩ", "emf": "25.6 V to 27.2 V",
        "discharge.continuous": "200 A", "discharge.peak": "0.4 kA for 1 min",
    },
    "disconnect": {
        "intermittent": "400 A for 5 min; 600 A for 10 s", "breaking": "500 A @ 32 V",
        "withstand": "5 kA for 1 s", "remote": "no",
    },
}  # fmt: skip


@pytest.mark.parametrize("kind", WRITTEN)
def test_cells_come_back_as_they_were_written(kind):
    stated, problems = from_cells(kind, WRITTEN[kind])
    part, more = build("x", kind, stated)
    assert (problems, more) == ([], ())
    assert to_cells(part) == WRITTEN[kind]


def test_what_those_cells_mean():
    # By hand: 0.058 kV = 58 V; 194 °F = 90 °C; 3/4 in = 19.05 mm;
    # 0.049 Ω / 304.8 m = 160.76 µΩ/m; 230 Ah × 3600 = 828 000 A·s.
    fuse = build("x", "fuse", from_cells("fuse", WRITTEN["fuse"])[0])[0]
    assert fuse.rated_voltage == 58.0
    assert fuse.terminal_limit == pytest.approx(90.0)
    assert fuse.melting_i2t == 12e6
    assert [(row.voltage, row.current) for row in fuse.interrupt_ratings] == [
        (58.0, 5000.0),
        (14.0, 10000.0),
    ]
    assert fuse.derating == ((25.0, 1.0), (60.0, 0.8))
    assert fuse.curve == Curve(((400.0, 3600.0), (2000.0, 0.05)), ((3000.0, 600.0),), True)
    cable = build("x", "cable", from_cells("cable", WRITTEN["cable"])[0])[0]
    assert cable.outside_diameter == pytest.approx(19.05e-3)
    assert cable.resistance_20c.min == pytest.approx(160.76e-6, rel=1e-4)
    battery = build("x", "battery", from_cells("battery", WRITTEN["battery"])[0])[0]
    assert battery.capacity == 828_000.0
    assert battery.discharge == Discharge(200.0, CurrentFor(400.0, 60.0))


def test_a_single_resistance_of_a_battery_is_widened_and_marked():
    battery, _ = build("x", "battery", {"resistance": "3.2 mΩ"})
    # By hand: 3.2 × 0.85 = 2.72; 3.2 × 1.6 = 5.12
    assert battery.resistance.min == pytest.approx(2.72e-3)
    assert battery.resistance.max == pytest.approx(5.12e-3)
    assert battery.written["resistance.assumed"] == "-15 % / +60 %"
    fuse, _ = build("x", "fuse", {"resistance": "3.2 mΩ"})
    assert fuse.resistance == Band(3.2e-3, 3.2e-3)


@given(st.text(max_size=20))
def test_guarding_against_formulas_loses_nothing(cell):
    assert unguarded(guarded(cell)) == cell
    assert not guarded(cell).startswith(("=", "+", "-", "@", "\t", "\r"))


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", "'=1", "''", "'tis", "\t=1"])
def test_no_cell_of_a_sheet_is_a_formula_and_each_comes_back(text):
    part, _ = build("x", "fuse", {"notes": text})
    sheet = write_sheet([part])
    (row,) = list(csv.reader(io.StringIO(sheet, newline="")))[1:]
    assert not any(cell.startswith(("=", "+", "-", "@", "\t")) for cell in row)
    assert read_sheet(sheet)[0].notes == text


def test_cells_that_a_person_typed_unguarded_are_kept_faithfully():
    (part,) = read_sheet("id,kind,notes,description\nx,fuse,=SUM(A1),'tis a fuse\n")
    assert (part.notes, part.description) == ("=SUM(A1)", "'tis a fuse")


def test_every_column_belongs_to_a_kind():
    assert set(every_column()) == {column for kind in KINDS for column in columns_for(kind)}
