"""Whatever a part can state in the catalogue, it can state in a file; nothing else."""

from __future__ import annotations

from dataclasses import fields
from typing import get_args, get_type_hints

import pytest

from catalogue.layout import RECORDS
from catalogue.parts import KINDS, Cable
from coordination.reading.records import SHAPES

SIZES = {
    "current": "10 A", "voltage": "12 V", "resistance": "1 mΩ", "resistance_per_length": "1 mΩ/m",
    "charge": "100 Ah", "length": "10 mm", "area": "33.6 mm²", "temperature": "90 °C",
    "time": "1 s", "factor": "0.9", "ratio": "90 %", "let_through": "1000 A²s",
}

#: Fields with narrower bounds than their dimension.
NARROW = {"capacity_tolerance": "5 %", "peukert_exponent": "1.2"}


def _sample(metadata):
    """Something that may stand in a field of that shape, as YAML."""
    shape, columns = metadata["shape"], metadata.get("columns", ())
    cells = [SIZES.get(dimension, "") for _, dimension in columns]
    pairs = zip(columns, cells, strict=True)
    record = "{" + ", ".join(f"{name}: {cell}" for (name, _), cell in pairs) + "}"
    size = SIZES.get(metadata.get("dimension", ""), "")
    return {
        "quantity": lambda: size,
        "band": lambda: f"{{min: {size}, max: {size}}}",
        "mappings": lambda: f"[{record}]",
        "mapping": lambda: record,
        "pairs": lambda: f"[[{', '.join(cells)}]]",
        "curve": lambda: f"{{{columns[0][0]}: [[10 A, 1 s]]}}",
        "discharge": lambda: "{continuous: 10 A}",
        "text": lambda: "2",
        "choice": lambda: metadata["choices"][0],
        "flag": lambda: "no",
        "whole": lambda: "2",
        "date": lambda: "2026-03-01",
    }[shape]()


FIELDS = [
    pytest.param(
        kind,
        field.name,
        NARROW.get(field.name) or _sample(field.metadata),
        id=f"{kind}.{field.name}",
    )
    for kind, made in KINDS.items()
    for field in fields(made)
    if "shape" in field.metadata
]


def _with_part(good, kind, lines):
    body = "".join(f"    {line}\n" for line in (f"kind: {kind}", *lines))
    return good.replace("parts:\n", f"parts:\n  tried:\n{body}", 1)


@pytest.mark.parametrize(("kind", "name", "value"), FIELDS)
def test_a_field_can_be_stated(kind, name, value, good, problems_of):
    assert problems_of(_with_part(good, kind, [f"{name}: {value}"])) == []


@pytest.mark.parametrize(("kind", "name", "_"), FIELDS)
def test_a_field_wants_its_own_shape(kind, name, _, good, problems_of):
    told = problems_of(_with_part(good, kind, [f"{name}: [[[odd]]]"]))
    assert told
    assert all(problem.startswith("13:") for problem in told)


@pytest.mark.parametrize("kind", KINDS)
def test_a_field_of_no_kind_is_refused(kind, good, problems_of):
    (told,) = problems_of(_with_part(good, kind, ["colour: red"]))
    assert told.startswith("13:5: unknown key 'colour'; allowed: kind, description, ")


def test_rows_make_what_the_parts_declare():
    for made in KINDS.values():
        hints = get_type_hints(made)
        for field in fields(made):
            if field.metadata.get("shape") in ("mapping", "mappings"):
                names = tuple(name for name, _ in field.metadata["columns"])
                assert RECORDS[names] in get_args(hints[field.name])


def test_every_shape_of_the_parts_has_a_reader():
    shapes = {f.metadata["shape"] for made in KINDS.values() for f in fields(made) if f.metadata}
    assert shapes <= SHAPES.keys()


@pytest.mark.parametrize(
    ("size", "circular_mils"), [("4/0", 211_600), ("1/0", 105_530), ("6", 26_240), ("18", 1_620)]
)
def test_gauges_against_the_printed_table(size, circular_mils, good, system_of):
    """Circular mils of the AWG sizes (ASTM B258, from memory, not read here)."""
    text = good.replace("awg: 4/0,", f"awg: {size},")
    cable = system_of(text).circuits["port feed"].elements[1].part
    assert isinstance(cable, Cable)
    # A circular mil is the area of a circle 0.001 in across: 5.067 × 10⁻¹⁰ m².
    assert cable.area == pytest.approx(circular_mils * 5.067e-10, rel=4e-3)


@pytest.mark.parametrize("size", ["4/0 AWG", "4/0AWG", '"4/0"'])
def test_spellings_of_a_gauge(size, good, system_of):
    assert system_of(good.replace("awg: 4/0,", f"awg: {size},")).elements()[1].part.awg == "4/0"


@pytest.mark.parametrize(
    ("area", "fits"),
    [("32.3 mm²", True), ("34.9 mm²", True), ("32.2 mm²", False), ("35 mm²", False)],
)
def test_area_and_gauge_within_four_per_cent(area, fits, good, problems_of):
    """2 AWG is 33.63 mm²: 4 % are 1.345 mm², so from 32.29 to 34.98 mm²."""
    told = problems_of(good.replace("area: 33.6 mm²", f"area: {area}"))
    assert bool(told) != fits
    assert fits or "2 AWG is 33.63 mm²" in told[0]


#: Gauge, strands and the diameter of one [mil]: ASTM B172 and B174, classes K and I, from memory.
STRANDINGS = [
    ("18", 16, 10.0), ("16", 26, 10.0), ("14", 41, 10.0), ("12", 65, 10.0), ("10", 104, 10.0),
    ("8", 168, 10.0), ("6", 266, 10.0), ("4", 420, 10.0), ("2", 665, 10.0), ("1", 836, 10.0),
    ("1/0", 1064, 10.0), ("2/0", 1323, 10.0), ("3/0", 1666, 10.0), ("4/0", 2107, 10.0),
    ("8", 41, 20.1), ("6", 63, 20.1), ("4", 105, 20.1), ("2", 161, 20.1), ("1", 210, 20.1),
    ("1/0", 266, 20.1), ("2/0", 342, 20.1), ("3/0", 418, 20.1), ("4/0", 532, 20.1),
]  # fmt: skip


@pytest.mark.parametrize(("size", "strands", "mils"), STRANDINGS)
def test_every_standard_stranding_of_a_gauge_is_no_contradiction(
    size, strands, mils, good, problems_of
):
    """A circular mil is 506.7075e-6 mm²; 342 strands of 20.1 mil, a 2/0, are 70.01 mm²."""
    area = f"{strands * mils**2 * 506.7075e-6:.2f} mm²"
    stated = f"awg: {size}, area: {area}"
    assert problems_of(good.replace("awg: 2, area: 33.6 mm²", stated)) == []


def test_the_fastest_side_is_compared_past_the_ends_of_the_slowest(good, problems_of):
    """Open within 30 ms at 3 kA means open within 30 ms at 6 kA, not after 40 ms or more."""
    text = good.replace("[3 kA, 10 ms]]", "[3 kA, 10 ms], [6 kA, 10 ms]]")
    assert problems_of(text) == []
    (told,) = problems_of(good.replace("[[600 A, 1 s], [3 kA, 10 ms]]", "[[6 kA, 40 ms]]"))
    assert "at 600 A min_melt" not in told
    assert "at 3000 A min_melt (0.04 s) is above max_clear (0.03 s)" in told


def test_curves_are_compared_between_points_on_log_scales(good, problems_of):
    """Half way in log from 600 A, 10 s to 3 kA, 30 ms is 1342 A, 0.548 s."""
    below = good.replace("[[600 A, 1 s], [3 kA", "[[600 A, 1 s], [1342 A, 0.54 s], [3 kA")
    assert problems_of(below) == []
    (told,) = problems_of(below.replace("0.54 s", "0.56 s"))
    assert "at 1342 A min_melt (0.56 s) is above max_clear (0.5" in told
