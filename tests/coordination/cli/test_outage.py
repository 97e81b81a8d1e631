"""`fusewright outage`: what goes dark, as text, markdown and JSON."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from coordination.report.outage_answer import outages_schema

CHECKOUT = Path(__file__).parents[3]
SYSTEMS = CHECKOUT / "fixtures" / "systems"
DEMOS = sorted(SYSTEMS.glob("*-*.yaml"))
DEMOS = [each for each in DEMOS if "expected" not in each.name]
TENDER = SYSTEMS / "tender-planted.yaml"


def line(text: str, begins: str) -> str:
    """A line with those that continue it, blanks made single."""
    match = re.search(rf"^ +{re.escape(begins)}.*(?:\n {{6}}.*)*", text, re.MULTILINE)
    assert match, text
    return " ".join(match[0].split())


def test_the_tenders_bilge_pumps_are_always_on_but_not_beyond_the_packs(fusewright: Any) -> None:
    """By the drawing: ahead of the house switch, behind both contactors and the main fuse."""
    ended = fusewright("outage", TENDER, "--condition", "normal")
    assert ended.status == 0
    first, _, rest = ended.out.partition("Before any event")
    assert "bilge pump 1, bilge pump 2" in first.partition("by other sources")[0]
    assert "inverter" in first.partition("by other sources")[2]
    assert line(rest, "bilge 1 fuse opens") == "bilge 1 fuse opens: dark: bilge pump 1"
    # 151.5 A + 35 A + 2 × 6 A + 8 A + 6 A + 6 A + 2 A = 220.5 A of the DC-DC's 40 A
    assert line(rest, "port pack + starboard pack trip together").startswith(
        "port pack + starboard pack trip together: starved on dc-dc alone: bilge pump 1, bilge "
        "pump 2, inverter"
    )
    # the alternator stays with the start battery: no trip of a pack leaves it alone
    told = " ".join(rest.split())
    assert told.count("without a battery: alternator") == 2
    assert "alternator fuse opens: running without a battery: alternator" in told
    assert "start battery is lost: on alternator alone: starter; running without a" in told
    critical = rest.partition("Critical equipment is struck when")[2]
    assert "main fuse opens, bilge 1 fuse opens, port pack + starboard pack trip" in " ".join(
        critical.split()
    )


def test_one_event_with_its_sums(fusewright: Any) -> None:
    text = fusewright("outage", TENDER, "house switch", "--condition", "shore").out
    assert text.startswith("house switch is opened\n")
    # 8 A + 6 A + 6 A + 2 A = 22 A; shore charger 70 A, DC-DC 40 A
    assert "I_limit_1 + I_limit_2 =" in text
    assert "22.0 A drawn, 110 A" in " ".join(text.split())


def test_a_contactor_is_its_batterys_trip(fusewright: Any) -> None:
    text = fusewright("outage", TENDER, "port contactor", "--condition", "one pack out").out
    assert text == "port contactor: nothing changes in any condition.\n"
    assert fusewright("outage", TENDER, "port contactor").out.startswith("port pack trips\n")


def test_equipment_is_asked_for_by_what_strikes_it(fusewright: Any) -> None:
    text = fusewright("outage", TENDER, "crane winch", "--condition", "normal").out
    heads = [each for each in text.splitlines() if each and not each.startswith(" ")]
    assert heads == [
        "main fuse opens", "winch breaker opens", "house switch is opened",
        "port pack + starboard pack trip together", "all switches off",
    ]  # fmt: skip


def test_an_unknown_event_has_a_near_miss(fusewright: Any) -> None:
    ended = fusewright("outage", TENDER, "hose switch")
    assert (ended.status, ended.out) == (2, "")
    assert "no event 'hose switch'" in ended.err
    assert "did you mean 'house switch'?" in ended.err


def test_an_unknown_condition_is_refused(fusewright: Any) -> None:
    ended = fusewright("outage", TENDER, "--condition", "haulling")
    assert (ended.status, ended.out) == (2, "")
    assert "did you mean 'hauling'?" in ended.err


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_json_fits_its_schema(path: Path, fusewright: Any) -> None:
    answer = json.loads(fusewright("outage", path, "--format", "json").out)
    schema = outages_schema()
    for definition in schema["$defs"].values():
        definition.setdefault("additionalProperties", False)
    jsonschema.validate(answer, schema)
    assert all(each["events"] for each in answer["conditions"].values())


def test_json_of_one_event(fusewright: Any) -> None:
    words = ("outage", TENDER, "port pack + starboard pack", "--format", "json")
    answer = json.loads(fusewright(*words).out)
    (event,) = answer["conditions"]["normal"]["events"]
    assert event["opens"] == ["port contactor", "starboard contactor"]
    bilge = event["changes"]["supplied"][3]
    assert (bilge["equipment"], bilge["state"]) == ("bilge pump 1", "starved")
    assert bilge["limit_A"] == 40.0
    assert bilge["drawn_A"] == pytest.approx(3000 / 0.9 / 22.0 + 35 + 2 * 6 + 22)


def test_the_schema_is_published(fusewright: Any) -> None:
    assert json.loads(fusewright("schema", "outage").out) == outages_schema()


def test_an_unknown_current_is_null(fusewright: Any, tmp_path: Path) -> None:
    path = tmp_path / "unknown.yaml"
    text = TENDER.read_text("utf-8").replace("efficiency: 90 %, min_voltage", "min_voltage")
    path.write_text(text, encoding="utf-8")
    answer = json.loads(fusewright("outage", path, "main fuse", "--format", "json").out)
    (event,) = answer["conditions"]["normal"]["events"]
    first = event["changes"]["supplied"][0]
    assert (first["state"], first["drawn_A"]) == ("unknown", None)
    assert first["missing"] == ["inverter: efficiency"]


@pytest.mark.parametrize("width", [40, 80, 120])
@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_no_line_is_wider_than_asked(path: Path, width: int, fusewright: Any) -> None:
    text = fusewright("outage", path, "--width", width).out
    assert max(map(len, text.splitlines())) <= width


def test_hostile_names_are_no_markup(fusewright: Any, tmp_path: Path) -> None:
    path = tmp_path / "hostile.yaml"
    text = TENDER.read_text("utf-8")
    text = text.replace("radar:", '"ra|<b>dar":').replace("to: radar", 'to: "ra|<b>dar"')
    path.write_text(text, encoding="utf-8")
    for words in ((), ("module fuse",)):
        ended = fusewright("outage", path, "--format", "markdown", *words)
        assert ended.status == 0, ended.err
        assert "<b>" not in ended.out
        assert "ra\\|&lt;b&gt;dar" in ended.out


def test_markdown_tells_the_same(fusewright: Any) -> None:
    text = fusewright("outage", TENDER, "--format", "markdown").out
    assert re.search(r"\| bilge 1 fuse opens +\| all +\| dark: bilge pump 1 +\|", text)
    one = fusewright("outage", TENDER, "bilge 1 fuse", "--format", "markdown").out
    assert "- goes dark: bilge pump 1" in one
