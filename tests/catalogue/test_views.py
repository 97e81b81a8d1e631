"""What other SQLite tools find: views with units in their names, and a page about them."""

from __future__ import annotations

import sqlite3

import pytest

from catalogue.changes import change_by
from catalogue.layout import LISTS, described
from catalogue.parts import KINDS, Battery, BusbarPart, Cable, Channel, Curve, Fuse
from catalogue.records import Band, CurrentFor, Discharge, InterruptRating
from catalogue.saving import save
from catalogue.schema_page import PAGE, schema_page
from catalogue.views import NAMES, UNITS, every_view
from catalogue.writing import open_for_change

PARTS = [
    Fuse(
        id="f", kind="fuse", rated_current=300.0, rated_voltage=58.0, terminal_limit=90.0,
        melting_i2t=1.2e7, interrupt_ratings=(InterruptRating(58.0, 5000.0),),
        derating=((40.0, 0.9),), curve=Curve(((400.0, 10.0),), (), gates=True),
        status="retired", successor="g",
    ),
    Cable(id="c", kind="cable", area=95e-6, outside_diameter=0.0191,
          resistance_20c=Band(0.000193, 0.000206)),
    BusbarPart(id="b", kind="busbar", width=0.03, short_time=CurrentFor(25000.0, 1.0)),
    Battery(id="p", kind="battery", capacity=828000.0,
            discharge=Discharge(200.0, CurrentFor(400.0, 60.0))),
    Channel(id="h", kind="channel", fails_shorted=False),
]  # fmt: skip


@pytest.fixture(scope="module")
def connection(tmp_path_factory):
    path = tmp_path_factory.mktemp("views") / "x.sqlite"
    with open_for_change(path) as db:
        save(db, PARTS, change_by("A. Maker", "sheet 1"))
    found = sqlite3.connect(path)
    # As a careful tool opens it.
    found.execute("PRAGMA trusted_schema = OFF")
    yield found
    found.close()


@pytest.mark.parametrize(
    ("query", "row"),
    [
        # By hand: 95e-6 m² = 95 mm²; 0.0191 m = 19.1 mm; 828000 A·s / 3600 = 230 Ah; 0.03 m = 30 mm
        ("SELECT rated_current_A, rated_voltage_V, terminal_limit_degC, melting_i2t_A2s FROM fuses",
         (300.0, 58.0, 90.0, 1.2e7)),
        ("SELECT id, status, successor, curve_gates FROM fuses", ("f", "retired", "g", "yes")),
        ("SELECT area_mm2, outside_diameter_mm, resistance_20c_max_ohm_per_m FROM cables",
         (95.0, 19.1, 0.000206)),
        ("SELECT width_mm, short_time_current_A, short_time_time_s, thickness_mm FROM busbars",
         (30.0, 25000.0, 1.0, None)),
        ("SELECT capacity_Ah, discharge_peak_current_A FROM batteries", (230.0, 400.0)),
        ("SELECT fails_shorted FROM channels", ("no",)),
        ("SELECT id, row_number, voltage_V, current_A FROM interrupt_ratings",
         ("f", 1, 58.0, 5000.0)),
        ("SELECT id, temperature_degC, factor_share FROM deratings", ("f", 40.0, 0.9)),
        ("SELECT id, side, current_A, time_s FROM curve_points", ("f", "fastest", 400.0, 10.0)),
        ("SELECT revision, changed_by, why, status FROM history WHERE id = 'f'",
         (1, "A. Maker", "sheet 1", "retired")),
    ],
)  # fmt: skip
def test_figures_come_in_the_unit_of_their_column(connection, query, row):
    assert connection.execute(query).fetchone() == row


def test_no_stated_field_is_missing_from_the_views():
    columns = {view.name: {each.name for each in view.columns} for view in every_view()}
    for kind in KINDS:
        for field in described(kind):
            if field.name not in LISTS:
                assert any(name.startswith(field.name) for name in columns[NAMES[kind]]), field.name


def test_every_dimension_has_its_unit_and_every_view_can_be_read(connection):
    used = {
        field.metadata["dimension"]
        for kind in KINDS for field in described(kind) if "dimension" in field.metadata
    }  # fmt: skip
    assert used <= UNITS.keys()
    for view in every_view():
        connection.execute(f"SELECT * FROM {view.name}").fetchall()


def test_the_page_about_tables_and_views_is_that_of_this_layout():
    # If this fails: python -m catalogue.schema_page
    assert PAGE.read_text(encoding="utf-8") == schema_page()
