"""Names of any sort come out of the papers as text, in every part and in both kinds of file."""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

import pytest

from coordination.papers import Asked, report_page
from coordination.papers.sections import chosen_sections
from coordination.papers.svg import inline

from .conftest import LAUNCH, WHEN, Page, findings, told

#: What stands in the file in place of a harmless word, and what a reader must see.
NAMES = {
    "lamps": ("<script>alert(1)</script>", "<script>alert(1)</script>"),
    "winch": ("x' onmouseover='alert(1)", "x' onmouseover='alert(1)"),
    "house bar": ("</style><img src=x onerror=alert(2)>", "</style><img src=x onerror=alert(2)>"),
    "lamp fuse": ("=cmd()|calc!A1", "=cmd()|calc!A1"),
    "main cable": ("&lt;b&gt; & \\u00e9", "&lt;b&gt; & é"),
    "Chart launch": ("{{ 7*7 }} </title>", "{{ 7*7 }} </title>"),
    "gate-10": ("</svg><script>part</script>", "</svg><script>part</script>"),
}


@pytest.fixture(scope="module")
def hostile(tmp_path_factory: pytest.TempPathFactory) -> Path:
    text = LAUNCH.read_text("utf-8")
    for harmless, (written, _) in NAMES.items():
        assert harmless in text
        # Double quotes, so that escapes of YAML reach the reader as the signs themselves.
        text = re.sub(rf"(?<=[ {{\[]){re.escape(harmless)}(?=[,:}}\]\n])",
                      lambda _, put=written: f'"{put}"', text)  # fmt: skip
    path = tmp_path_factory.mktemp("hostile") / "hostile.yaml"
    path.write_text(text, encoding="utf-8")
    return path


@pytest.mark.parametrize("language", ["en", "de"])
def test_they_are_read_as_text(page: Page, hostile: Path, language: str) -> None:
    said = told(page(hostile, (), language))
    for _, shown in NAMES.values():
        assert shown in said.text


@pytest.mark.parametrize("language", ["en", "de"])
def test_no_element_comes_of_them(page: Page, hostile: Path, language: str) -> None:
    said = told(page(hostile, (), language))
    assert "script" not in {tag for tag, _ in said.elements}
    assert not [given for _, given in said.elements if any(key.startswith("on") for key in given)]
    assert not [given for tag, given in said.elements if tag == "img"]


def test_no_sign_that_moves_the_reader_is_left(hostile: Path) -> None:
    """The reader of files refuses such signs; another maker of systems might not."""
    found = findings(hostile)
    system = replace(found.system, name="a\u202eevil \x1b[31mred")
    asked = Asked(chosen_sections(["basis"]), "en", WHEN)
    whole = report_page(replace(found, system=system), asked)
    assert "a\\u202eevil \\x1b[31mred" in whole
    assert not re.search("[\x00-\x08\x0b-\x1f\x7f\u202a-\u202e\u2066-\u2069]", whole)


def test_every_link_still_leads_somewhere(page: Page, hostile: Path) -> None:
    said = told(page(hostile))
    links = [given["href"] for tag, given in said.elements if tag == "a" and "href" in given]
    assert {link.removeprefix("#") for link in links} <= set(said.ids())
    assert len(said.ids()) == len(set(said.ids()))


def test_a_picture_cannot_end_its_label() -> None:
    inner = '<path id="a" d="M 0 0"/><path id="b" d="M 1 1"/><use href="#a"/>'
    svg = f'<?xml version="1.0"?><svg width="1pt" viewBox="0 0 1 1">{inner}</svg>'
    markup = inline(svg, "c1", 'x" onload="alert(1)')
    assert told(markup).elements[0][1]["aria-label"] == 'x" onload="alert(1)'
    assert "onload" not in told(markup).elements[0][1]
    # A name that nothing refers to only makes the page longer.
    assert told(markup).ids() == ["c1-a"]
