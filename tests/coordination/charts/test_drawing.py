"""The files: valid, A4, the same each time, with every word as text and no label over another."""

from __future__ import annotations

import json
import re
import struct
import zlib
from collections.abc import Callable
from functools import cache
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import matplotlib
import pytest

from coordination.charts import Chart, chart_of, deepest, path_of
from coordination.charts.chart import Mark
from coordination.charts.drawing import picture, sheet
from coordination.charts.frame import current_limits
from coordination.charts.naming import short
from coordination.checking import Request, prepare, studies_of
from coordination.pictures import FORMATS, settings

from .conftest import WHEN

SVG = "{http://www.w3.org/2000/svg}"
SYSTEMS = Path(__file__).parents[3] / "fixtures" / "systems"
A4_POINTS = (841.89, 595.28)


def texts(svg: bytes) -> list[str]:
    root = ElementTree.fromstring(svg)
    return ["".join(each.itertext()).strip() for each in root.iter(f"{SVG}text")]


def test_svg_is_xml_on_a4_with_its_words_as_text(chart: Callable[..., Chart]) -> None:
    drawn = chart("inverter")
    svg = picture(drawn, "svg")
    root = ElementTree.fromstring(svg)
    _, _, width, height = (float(each) for each in root.attrib["viewBox"].split())
    assert width == pytest.approx(A4_POINTS[0], abs=0.1)
    assert height == pytest.approx(A4_POINTS[1], abs=0.1)
    words = texts(svg)
    for label in (
        "inverter fuse", "fast-200, 200 A", "main fuse", "fast-400, 400 A", "Chart launch",
        "normal", "2026-03-01", "surge of inverter: 325 A, 2 s", "10,000", "0.001", "current, A",
        "time, s",
    ):  # fmt: skip
        assert label in words, label
    assert any(each.startswith("max fault 14.3 kA") for each in words)


def test_png_is_a_whole_picture_of_print_size(chart: Callable[..., Chart]) -> None:
    png = picture(chart("lamps"), "png")
    assert png[:8] == b"\x89PNG\r\n\x1a\n"
    width, height = struct.unpack(">II", png[16:24])
    assert (width, height) == (1753, 1240)
    assert png[-12:] == b"\x00\x00\x00\x00IEND\xaeB`\x82"


def test_pdf_is_one_page_of_a4(chart: Callable[..., Chart]) -> None:
    pdf = picture(chart("winch"), "pdf")
    assert pdf.startswith(b"%PDF-1.")
    assert pdf.rstrip().endswith(b"%%EOF")
    assert len(re.findall(rb"/Type /Page[^s]", pdf)) == 1
    box = re.search(rb"/MediaBox \[ ?0 0 ([\d.]+) ([\d.]+) ?\]", pdf)
    assert box is not None
    assert float(box[1]) == pytest.approx(A4_POINTS[0], abs=0.1)
    assert float(box[2]) == pytest.approx(A4_POINTS[1], abs=0.1)
    assert b"/FontName" in pdf
    streams = re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.S)
    assert any(b" Tf" in zlib.decompress(each) for each in streams if each[:1] == b"x")


@pytest.mark.parametrize("format", FORMATS)
def test_the_same_chart_is_the_same_file(format: str, chart: Callable[..., Chart]) -> None:
    first, second = picture(chart("lamps"), format), picture(chart("lamps"), format)
    assert first == second
    assert b"2026-11" not in first
    assert b"CreationDate" not in first


def test_the_users_own_settings_change_nothing(chart: Callable[..., Chart]) -> None:
    plain = picture(chart("lamps"), "svg")
    with matplotlib.rc_context({"lines.linewidth": 9, "font.size": 30, "axes.facecolor": "red"}):
        assert picture(chart("lamps"), "svg") == plain
        assert matplotlib.rcParams["font.size"] == 30


HOSTILE = ("$x^2$ & <b>fuse</b>", "a\\b $\\frac{1}{0}$ 100 %", "保险丝 フューズ", "{curly} _under_")


@pytest.mark.parametrize("name", HOSTILE)
@pytest.mark.parametrize("format", FORMATS)
def test_a_hostile_name_is_only_text(name: str, format: str, study_of: Callable[..., Any]) -> None:
    quoted = json.dumps(name, ensure_ascii=False)
    study = study_of(
        ("name: lamp fuse", f"name: {quoted}"), ("system: Chart launch", f"system: {quoted}")
    )
    made = picture(chart_of(study, path_of(study, ("lamps",)), WHEN), format)
    assert made
    if format == "svg":
        assert texts(made).count(name) >= 2


def test_control_characters_of_a_name_are_made_visible() -> None:
    """A file with such a name is refused; a shop's parts may come from elsewhere."""
    assert short("lamp\u202e fuse") == "lamp\\u202e fuse"


def test_a_long_name_is_cut_not_run_off_the_sheet(study_of: Callable[..., Any]) -> None:
    study = study_of(("name: lamp fuse", f"name: {'x' * 90}"))
    drawn = chart_of(study, path_of(study, ("lamps",)), WHEN)
    assert drawn.curves[0].label[0] == "x" * 33 + "…"
    assert picture(drawn, "svg")


def test_a_sheet_without_curves_is_still_a_sheet() -> None:
    empty = Chart("Time-current curves", (("Path", "nothing"),), (), (), (), ())
    assert picture(empty, "png")
    one = Chart("x", (), (), (Mark("load 1 A", "load", 1.0),), (), ())
    assert "load 1 A" in texts(picture(one, "svg"))


@cache
def normal_study(system: str) -> Any:
    request = Request(str(SYSTEMS / f"{system}.yaml"))
    read, packs = prepare(request)
    return studies_of(request._replace(condition="normal"), read, packs)["normal"]


def demo_charts() -> list[Any]:
    named = {
        "tender-planted": ("inverter fuse", "winch"), "tender-cured": ("winch", "radar output"),
        "van-planted": ("inverter", "fridge"), "van-cured": ("inverter",),
        "cabin-planted": ("inverter fuse", "rack bar"), "cabin-cured": ("inverter fuse",),
    }  # fmt: skip
    return [pytest.param(system, name, id=f"{system} {name}")
            for system, names in named.items() for name in ("", *names)]  # fmt: skip


@pytest.mark.parametrize(("system", "name"), demo_charts())
def test_in_the_demo_systems_no_label_covers_another(system: str, name: str) -> None:
    """Every label stands within the frame, and none over another."""
    study = normal_study(system)
    path = path_of(study, (name,)) if name in (*study.system.circuits, *study.system.equipment) or (
        any(each.name == name for each in study.system.elements())
    ) else deepest(study)  # fmt: skip
    drawn = chart_of(study, path, WHEN)
    assert drawn.curves
    with settings():
        figure = sheet(drawn)
        axes: Any = figure.axes[0]
        frame = axes.get_window_extent()
        renderer = figure.canvas.get_renderer()  # type: ignore[attr-defined]
        boxes = [(text.get_text(), text.get_window_extent(renderer)) for text in axes.texts]
    _, right = current_limits(drawn)
    seen = [curve for curve in drawn.curves if curve.kind == "device"
            or curve.slowest[0].points[-1][0] < right]  # fmt: skip
    assert len(boxes) >= len(seen) + len(drawn.marks) + len(drawn.spots)
    for number, (text, box) in enumerate(boxes):
        assert box.x0 >= frame.x0 - 1, text
        assert box.x1 <= frame.x1 + 1, text
        assert box.y0 >= frame.y0 - 1, text
        assert box.y1 <= frame.y1 + 1, text
        for other, beside in boxes[number + 1 :]:
            apart = (box.x1 <= beside.x0 + 0.5 or beside.x1 <= box.x0 + 0.5
                     or box.y1 <= beside.y0 + 0.5 or beside.y1 <= box.y0 + 0.5)  # fmt: skip
            assert apart, f"{text!r} over {other!r}"


def test_bands_are_faint_and_their_hatching_is_not(chart: Callable[..., Chart]) -> None:
    svg = picture(chart("inverter"), "svg").decode()
    filled = re.findall(r"fill: url\(#(\w+)\)(; fill-opacity)?", svg)
    assert filled
    assert not any(faint for _, faint in filled)
    for name in {name for name, _ in filled}:
        ground = re.search(rf'<pattern id="{name}"[^>]*>\s*<rect [^>]*fill-opacity="0\.1"', svg)
        assert ground, name
