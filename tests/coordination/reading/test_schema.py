"""The JSON Schema and the reader are made from one list: what one takes, the other takes."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml
from jsonschema import Draft202012Validator

from catalogue.parts import KINDS
from coordination.reading.records import SHAPES
from coordination.reading.schema import _SHAPES, system_schema
from coordination.reading.system_fields import ELEMENTS, SYSTEM

HERE = Path(__file__).parent
ROOT = HERE.parents[2]
SYSTEMS = sorted(
    path
    for path in [*(ROOT / "fixtures/systems").rglob("*.yaml"), ROOT / "coordination/starter.yaml"]
    if "expected" not in path.name
)
CASES = yaml.safe_load((HERE / "bad_inputs.yaml").read_text(encoding="utf-8"))

#: Mistakes of spelling, shape and presence; the others lie in what names and units mean.
SEEN_BY_SCHEMA = (
    "misspelt top key", "misspelt field", "unknown field",
    "length misspelt: unknown and missing", "unknown kind of element", "element without a part",
    "element of two kinds", "element is a text", "rating set in place",
    "resistance set at a source", "circuit without parts", "circuit without end", "bare number",
    "bare zero", "decimal comma", "no number", "not a number", "band without max",
    "interrupt rating without voltage", "interrupt ratings not a list",
    "curve of a breaker in a fuse", "point without a time", "unknown kind of part",
    "part without a kind", "unknown choice", "flag that is none", "whole number that is none",
    "no runs", "date the other way round", "source is two things", "source is nothing",
    "limited source without voltage", "converter without voltage", "surge without time",
    "return of two kinds", "return without a path", "condition draws a bare number",
    "condition misspelt", "waiver without a reason", "options of no pack",
    "polarity towards nowhere", "switch normally ajar", "list for a text",
)


class Editor(yaml.SafeLoader):
    """Plain YAML as an editor sees it: numbers and flags, but dates as text (JSON has none)."""


Editor.yaml_implicit_resolvers = {
    first: [(tag, pattern) for tag, pattern in pairs if not tag.endswith(":timestamp")]
    for first, pairs in yaml.SafeLoader.yaml_implicit_resolvers.items()
}


@pytest.fixture(scope="module")
def validator():
    schema = system_schema()
    Draft202012Validator.check_schema(schema)
    return Draft202012Validator(schema)


@pytest.mark.parametrize("loader", [Editor, yaml.BaseLoader])
def test_the_good_file_fits(loader, good, validator):
    # BaseLoader makes an empty text of no value, which JSON knows as null.
    text = good
    if loader is yaml.BaseLoader:
        text = good.replace("  cabin:\n", "  cabin: {}\n").replace("quiet:", "quiet: {}")
    assert [error.message for error in validator.iter_errors(yaml.load(text, loader))] == []


@pytest.mark.parametrize("path", SYSTEMS, ids=lambda path: path.name)
def test_shipped_systems_fit(path, validator):
    content = yaml.load(path.read_text(encoding="utf-8"), Editor)
    if "system" not in content:
        pytest.skip("not a system file")
    assert [error.message for error in validator.iter_errors(content)] == []


@pytest.mark.parametrize("name", SEEN_BY_SCHEMA)
def test_mistakes_do_not_fit(name, good, validator):
    case = CASES[name]
    assert not validator.is_valid(yaml.load(good.replace(case["old"], case["new"]), Editor))


def test_every_shape_is_described():
    sections_and_reserved = {"section", "reserved"}
    assert _SHAPES.keys() == SHAPES.keys() - sections_and_reserved


def test_it_lists_every_field_with_its_meaning():
    schema = system_schema()
    assert schema["properties"].keys() == SYSTEM.fields.keys()
    parts, elements = {f"part-{kind}" for kind in KINDS}, {f"element-{kind}" for kind in ELEMENTS}
    assert schema["$defs"].keys() == parts | elements
    for definition in schema["$defs"].values():
        assert all(field.get("description") for field in definition["properties"].values())
    assert "lfp" in schema["$defs"]["part-battery"]["properties"]["chemistry"]["enum"]
    length = schema["$defs"]["element-cable"]["properties"]["length"]["description"]
    assert "metres" in length
    assert "at most 1 km" in length


def test_it_is_plain_json():
    import json

    assert json.loads(json.dumps(system_schema())) == system_schema()
