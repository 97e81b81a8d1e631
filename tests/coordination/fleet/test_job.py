"""What a job's line says, and what has to change before it is done again."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from catalogue.parts import Fuse
from catalogue.shop import add_parts
from coordination.checking import Request, judged, prepare
from coordination.checking.bench import Bench
from coordination.checking.local import Local
from coordination.fleet.job import do, may_name
from coordination.fleet.schema import line_schema
from coordination.fleet.setting import Order, Outcome, Setting, setting_for
from coordination.sealing import Signed, make_seal, text_of_seal
from coordination.sealing.hashes import of_file

OWN = "{fuse: demo-ct-15, name: fridge fuse}"
VAN = Path(__file__).parents[3] / "fixtures/systems/van-cured.yaml"


@pytest.fixture
def shop(tmp_path: Path) -> str:
    path = str(tmp_path / "shop.sqlite")
    add_parts(path, [fuse(15.0)])
    return path


def fuse(rating: float) -> Fuse:
    return Fuse(
        id="shop-fuse", kind="fuse", rated_current=rating, rated_voltage=32.0, document="sheet 1"
    )


@pytest.fixture
def here(shop: str) -> Setting:
    return setting_for(shop, (), Local())


@pytest.fixture
def bench(shop: str) -> Iterator[Bench]:
    with Bench(shop) as bench:
        yield bench


@pytest.fixture
def van(tmp_path: Path) -> Path:
    """The demo van with a fuse of the shop's."""
    text = VAN.read_text("utf-8")
    assert OWN in text
    path = tmp_path / "van.yaml"
    path.write_text(text.replace(OWN, "{fuse: shop-fuse, name: fridge fuse}"), "utf-8")
    return path


def seal(path: Path, bench: Bench, **more: Any) -> None:
    request = Request(str(path), **more)
    findings = judged(request, *prepare(request, bench))
    made = make_seal(findings, request, bench, of_file(str(path)), Signed("T", "", "2026-11-25"))
    path.with_name(path.name + ".seal.json").write_text(text_of_seal(made), "utf-8")


def line(outcome: Outcome) -> dict[str, Any]:
    jsonschema.validate({"job": outcome.line}, line_schema())
    json.dumps(outcome)
    return outcome.line


def test_a_line_says_what_a_check_says(van: Path, here: Setting, bench: Bench) -> None:
    found = line(do(Order(0, str(van)), here, bench))
    findings = judged(Request(str(van)), *prepare(Request(str(van)), bench))
    assert found["counts"] == dict(findings.counts)
    assert (found["verdict"], found["status"]) == (findings.verdict, findings.exit_status)
    assert found["system"] == "Bracken Two, mended"
    assert found["seal"]["state"] == "none"


def test_it_is_held_to_its_seal(van: Path, here: Setting, bench: Bench, shop: str) -> None:
    seal(van, bench)
    assert line(do(Order(0, str(van)), here, bench))["seal"]["state"] == "same"
    add_parts(shop, [fuse(1.0)], replace=True)
    found = line(do(Order(0, str(van)), here, bench))
    assert found["verdict"] == "fail"
    held = found["seal"]
    assert (held["state"], held["verdict"]) == ("changed", "unproven")
    assert held["causes"] == ["parts"]
    assert held["parts"] == ["shop-fuse"]
    assert held["moves"]["new fail"] == len(held["newly"]) >= 1
    assert all(each.startswith("new fail: fundamentals/") for each in held["newly"])
    assert any(each.endswith(", fridge fuse") for each in held["newly"])


def test_a_damaged_seal_is_told_beside_the_verdict(
    van: Path, here: Setting, bench: Bench
) -> None:
    van.with_name("van.yaml.seal.json").write_text("{", "utf-8")
    found = line(do(Order(0, str(van)), here, bench))
    assert found["outcome"] == "checked"
    assert found["seal"]["state"] == "unusable"
    assert "cut off" in found["seal"]["problem"]


def test_what_was_sealed_is_a_job_whatever_became_of_it(
    van: Path, here: Setting, bench: Bench
) -> None:
    seal(van, bench)
    van.write_bytes(b"")
    found = line(do(Order(0, str(van)), here, bench))
    assert found["outcome"] == "unusable"
    assert "the file is empty" in found["problems"][0]


@pytest.mark.parametrize(
    ("content", "named", "outcome"),
    [
        (b"services: {}\n", False, "skipped"),
        (b"services: {}\n", True, "unusable"),
        (b"system: x\nsources: [\n", False, "unusable"),
        (b"system: x\nsources: \xff\n", False, "unusable"),
        (b"system: x\nsources:\n" + b" a: b\n" * 400_000, False, "unusable"),
    ],
)
def test_what_is_no_job_and_what_is_a_broken_one(
    content: bytes, named: bool, outcome: str, tmp_path: Path, here: Setting, bench: Bench
) -> None:
    path = tmp_path / "a.yaml"
    path.write_bytes(content)
    found = do(Order(0, str(path), named), here, bench)
    assert found.line["outcome"] == outcome
    assert found.key is None


def test_a_file_that_is_gone_is_told(tmp_path: Path, here: Setting, bench: Bench) -> None:
    found = line(do(Order(0, str(tmp_path / "gone.yaml")), here, bench))
    assert found["outcome"] == "unusable"


def test_a_fault_of_the_program_is_called_so(
    van: Path, here: Setting, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fault(*_: object) -> None:
        raise ZeroDivisionError("planted")

    monkeypatch.setattr("coordination.fleet.job.judged", fault)
    found = line(do(Order(0, str(van)), here, bench))
    assert found["outcome"] == "failed"
    assert found["problems"] == ["a fault of fusewright's own (ZeroDivisionError: planted)"]


class Again:
    """A job that was done once; whether it has to be done again."""

    def __init__(self, van: Path, here: Setting, bench: Bench) -> None:
        self.path, self.bench, self.setting = van, bench, here
        self.key = do(Order(0, str(van)), here, bench).key
        assert self.key is not None
        self.key = json.loads(json.dumps(self.key))

    def needed(self, setting: Setting | None = None) -> bool:
        order = Order(0, str(self.path), key=self.key)
        return not do(order, setting or self.setting, self.bench).kept


@pytest.fixture
def again(van: Path, here: Setting, bench: Bench) -> Again:
    return Again(van, here, bench)


def test_nothing_changed_and_nothing_is_done_again(again: Again) -> None:
    assert not again.needed()
    again.path.touch()
    assert not again.needed()


def test_another_content_is_done_again(again: Again) -> None:
    again.path.write_text(again.path.read_text("utf-8") + "#\n", "utf-8")
    assert again.needed()


def test_a_new_seal_is_done_again(again: Again) -> None:
    seal(again.path, again.bench)
    assert again.needed()


def test_a_part_that_it_uses_is_done_again_another_is_not(again: Again, shop: str) -> None:
    other = Fuse(id="other", kind="fuse", rated_current=5.0)
    add_parts(shop, [other])
    assert not again.needed()
    add_parts(shop, [fuse(20.0)], replace=True)
    assert again.needed()


def test_another_basis_is_done_again(again: Again, tmp_path: Path, shop: str) -> None:
    assert again.needed(setting_for(shop, ("us_small_craft",), Local()))
    rules = tmp_path / "yard.yaml"
    rules.write_text(
        "house_rules: Tern\nrules:\n  thick: {every: cable, area: '>= 0.5 mm²'}\n", "utf-8"
    )
    assert again.needed(setting_for(shop, (), Local(house_rules=(str(rules),))))
    assert again.needed(again.setting._replace(basis="0" * 64))


def test_another_pack_is_done_again(again: Again) -> None:
    assert again.key is not None
    assert set(again.key["packs"]) == {"fundamentals"}
    again.key["packs"]["fundamentals"] = "0" * 64
    assert again.needed()


def test_an_edition_that_has_come_into_force_is_done_again(again: Again) -> None:
    assert again.key is not None
    again.key["until"] = "2027-01-01"
    assert not again.needed(again.setting._replace(today="2026-12-31"))
    assert again.needed(again.setting._replace(today="2027-01-01"))


def test_only_jobs_that_use_the_part(van: Path, here: Setting, bench: Bench) -> None:
    def outcome(part: str) -> str:
        found = do(Order(0, str(van)), here._replace(changed_part=part), bench)
        return str(found.line["outcome"])

    assert outcome("shop-fuse") == "checked"
    assert outcome("demo-t-300") == "checked"  # one of the file's own
    assert outcome("demo-ct-20") == "unaffected"
    text = van.read_text("utf-8").replace("{fuse: shop-fuse,", '{fuse: "shop\\x2dfuse",')
    van.write_text(text + "# demo-ct-20\n", "utf-8")
    assert outcome("shop-fuse") == "checked"  # written with an escape
    assert outcome("demo-ct-20") == "unaffected"  # named in a comment only


def test_what_may_name_a_part() -> None:
    assert may_name(b"{fuse: f-1}", "f-1")
    assert not may_name(b"{fuse: f-2}", "f-1")
    assert may_name(b'{fuse: "f\\x2d1"}', "f-1")
    assert may_name("{fuse: f-1}".encode("utf-16"), "f-1")
    assert may_name(b"{fuse: f\n  1}", "f 1")
    assert may_name("{fuse: träge-1}".encode(), "träge-1")


def test_the_catalogue_is_read_anew_when_it_changes(shop: str) -> None:
    with Bench(shop) as bench:
        first = bench.catalogue.get("shop-fuse")
        assert bench.catalogue.get("shop-fuse") is first
        assert first is not None
        assert bench.catalogue.looked == {"shop-fuse": first}
        add_parts(shop, [fuse(20.0)], replace=True)
        bench.catalogue.begin()
        assert bench.catalogue.looked == {}
        second = bench.catalogue.get("shop-fuse")
        assert second is not None
        assert second.rated_current == 20.0  # type: ignore[attr-defined]
