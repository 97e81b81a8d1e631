"""Whatever a system file calls its things comes out as text, printable and in its place."""

from __future__ import annotations

import json
from collections.abc import Callable
from xml.etree import ElementTree

from coordination.diagram.drawn import Page
from coordination.diagram.ink import words_of
from coordination.diagram.one_line import sheet_svg, svg_file
from coordination.diagram.picture import pdf, png
from coordination.diagram.svg import xml

from .geometry import outside, over_each_other, struck_through

SVG = "{http://www.w3.org/2000/svg}"
BANK, BUS = "\"onload='x' \\'&amp;", "]]>&lt;!-- </svg>"
SECOND = "漢字の名前がとても長い設備の名前です"
LOADS = (
    "<script>alert(1)</script>",
    "W" * 99,
    "$\\frac{1}{2}$ %s {x}",
    "a\u0300\u0301\u0302 émigré",
)
SYSTEM = """\
system: {system}
nominal_voltage: 24 V
sources: {{{bank}: {{part: bank}}}}
busbars: {{{bus}: {{part: bar}}, {second}: {{part: bar}}}}
equipment: {{{loads}}}
circuits:
  "=cmd()|A1": {{from: {bank}, to: {bus}, parts: [{{fuse: f, name: "<b>the fuse"}}]}}
  "@SUM(1)": {{from: {bus}, to: {second}, parts: [{{fuse: f}}, {{cable: c, length: 1 m}}]}}
{circuits}
parts:
  bank: {{kind: battery, nominal_voltage: 25.6 V, capacity: 100 Ah, charge_voltage: 28.8 V,
    emf: {{min: 25.6 V, max: 27.2 V}}, resistance: {{min: 3 mΩ, max: 5 mΩ}}}}
  bar: {{kind: busbar, rated_current: 200 A, voltage: 60 V}}
  f: {{kind: fuse, family: "<i>&=2+2", rated_current: 100 A, rated_voltage: 125 V}}
  c: {{kind: cable, awg: 4/0, insulation_temperature: 105 °C}}
"""


def text() -> str:
    lines = (
        f'  "{number} <a href=x>": {{from: {json.dumps(SECOND)}, to: {json.dumps(load)}, '
        "parts: [{cable: c, length: 1 m}]}"
        for number, load in enumerate(LOADS)
    )
    return SYSTEM.format(
        system=json.dumps("<style>*{}</style>"),
        bank=json.dumps(BANK),
        bus=json.dumps(BUS),
        second=json.dumps(SECOND),
        loads=", ".join(f"{json.dumps(load)}: {{current: 5 A}}" for load in LOADS),
        circuits="\n".join(lines),
    )


def test_names_are_text_in_svg(written: Callable[[str], tuple[Page, ...]]) -> None:
    pages = written(text())
    root = ElementTree.fromstring(svg_file(pages))
    kinds = {each.tag.removeprefix(SVG) for each in root.iter()}
    assert kinds == {"svg", "style", "title", "desc", "g", "path", "circle", "text"}
    assert not [name for each in root.iter() for name in each.attrib if name.startswith("on")]
    shown = ["".join(each.itertext()) for each in root.iter(f"{SVG}text")]
    assert "<script>alert(1)" in " ".join(shown)
    assert "<b>the fuse" in shown
    assert "=cmd()|A1" in shown
    titles = ["".join(each.itertext()) for each in root.iter(f"{SVG}title")]
    assert any("W" * 99 in each for each in titles)
    assert any("<i>&=2+2" in each for each in shown)


def test_names_keep_to_their_place(written: Callable[[str], tuple[Page, ...]]) -> None:
    for page in written(text()):
        assert over_each_other(page) == []
        assert struck_through(page) == []
        assert outside(page) == []
        assert all(each.text.isprintable() for each in words_of(page.marks))


def test_names_are_drawn_as_they_are_in_pictures(
    written: Callable[[str], tuple[Page, ...]],
) -> None:
    pages = written(text())
    assert png(pages[0])[:4] == b"\x89PNG"
    assert pdf(pages)[:5] == b"%PDF-"


def test_what_xml_cannot_hold_is_left_out() -> None:
    assert xml("a\x00b\x1b[31m\ud800<&\"'\ufffe") == "ab[31m&lt;&amp;&quot;&#x27;"


def test_links_lead_to_findings_and_quote_nothing(
    written: Callable[[str], tuple[Page, ...]],
) -> None:
    page = written(text())[0]
    root = ElementTree.fromstring(sheet_svg(page, 1))
    ids = [each.attrib["id"] for each in root.iter() if "id" in each.attrib]
    assert len(ids) == len(set(ids))
    assert all(each.replace("-", "a").isalnum() and each.isascii() for each in ids)
