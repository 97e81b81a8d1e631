"""`fusewright seal` and `check --sealed`: what is kept, what is told, and what is refused."""

from __future__ import annotations

import json
import os
import re
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from catalogue.parts import Fuse
from catalogue.shop import add_parts
from coordination.report.schema import answer_schema

CHECKOUT = Path(__file__).parents[3]


def seal_of(path: Path) -> Any:
    return json.loads(path.with_name(path.name + ".seal.json").read_text("utf-8"))


@pytest.mark.parametrize(("which", "status"), [("good", 0), ("failing", 1), ("unproven", 3)])
def test_a_seal_is_written_beside_the_job(
    which: str, status: int, systems: Any, fusewright: Any
) -> None:
    path = getattr(systems, which)()
    done = fusewright("seal", path, "--by", "J. Tern", "--why", "before launch")
    assert (done.status, done.err) == (status, "")
    assert f"{path}.seal.json is written" in done.out
    seal = seal_of(path)
    assert (seal["by"], seal["why"]) == ("J. Tern", "before launch")
    assert re.fullmatch(r"\d{4}-\d\d-\d\d", seal["date"])
    assert seal["verdict"].upper() in done.out
    again = fusewright("check", path, "--sealed")
    assert again.status == status
    assert f"Nothing has changed since the seal of {seal['date']} by J. Tern" in again.out


def test_a_change_is_told_and_the_verdict_decides_the_status(
    systems: Any, fusewright: Any
) -> None:
    path = systems.good()
    fusewright("seal", path, "--by", "T")
    path.write_text(path.read_text("utf-8") + "# checked again\n", "utf-8")
    done = fusewright("check", path, "--sealed")
    assert done.status == 0
    assert "Changed since the seal" in done.out
    assert re.search(r"file +content: [0-9a-f]{12} then, [0-9a-f]{12} now", done.out)
    path.write_bytes(systems.failing().read_bytes())
    done = fusewright("check", path, "--sealed", "--width", 120)
    assert done.status == 1
    assert "verdict  pass then, fail now" in done.out
    assert "20 kA @ 125 V then, 1 kA @ 125 V now" in " ".join(done.out.split())
    assert "New fails (1)" in done.out
    assert re.search(r"fundamentals/interrupt-rating +pass, margin .* fail, margin 0.18", done.out)


def test_json_holds_the_changes_in_its_published_shape(systems: Any, fusewright: Any) -> None:
    path = systems.good()
    fusewright("seal", path, "--by", "T")
    plain = json.loads(fusewright("check", path, "--format", "json").out)
    assert "seal" not in plain
    path.write_bytes(systems.failing().read_bytes())
    found = json.loads(fusewright("check", path, "--sealed", "--format", "json").out)
    jsonschema.validate(found, answer_schema())
    assert found["seal"]["causes"] == ["file", "parts"]
    assert [each["how"] for each in found["seal"]["moves"]] == ["new fail"]
    assert "## Since the seal" in fusewright("check", path, "--sealed", "--format", "markdown").out


def test_a_part_of_the_shop_is_told_by_its_fields(tmp_path: Path, fusewright: Any) -> None:
    """The same file, another sheet in the catalogue: only the part is a cause."""
    shop, path = str(tmp_path / "shop.sqlite"), tmp_path / "job.yaml"
    text = (CHECKOUT / "fixtures/systems/van-cured.yaml").read_text("utf-8")
    own = "{fuse: demo-ct-15, name: fridge fuse}"
    assert own in text
    path.write_text(text.replace(own, "{fuse: shop-fuse, name: fridge fuse}"), "utf-8")
    add_parts(shop, [Fuse(id="shop-fuse", kind="fuse", rated_current=15.0, rated_voltage=32.0)])
    fusewright("seal", path, "--by", "T", "--catalogue", shop)
    sealed = seal_of(path)["parts"]["shop-fuse"]
    assert (sealed["origin"], sealed["revision"]) == ("shop", 1)
    assert seal_of(path)["parts"]["demo-t-300"]["revision"] is None
    changed = Fuse(id="shop-fuse", kind="fuse", rated_current=20.0, rated_voltage=32.0)
    add_parts(shop, [changed], replace=True)
    found = json.loads(
        fusewright("check", path, "--sealed", "--catalogue", shop, "--format", "json").out
    )["seal"]
    assert found["causes"] == ["parts"]
    (part,) = found["parts"]
    assert (part["id"], part["how"]) == ("shop-fuse", "changed")
    assert {"what": "rated_current", "was": "15.0 A", "now": "20.0 A"} in part["fields"]
    assert {"what": "revision", "was": "1", "now": "2"} in part["fields"]


def test_other_rules_on_the_command_line_are_told(
    systems: Any, fusewright: Any, tmp_path: Path
) -> None:
    house = tmp_path / "yard.yaml"
    house.write_text(
        "house_rules: Tern\nrules:\n  thick: {every: cable, area: '>= 0.5 mm²'}\n", "utf-8"
    )
    path = systems.good()
    fusewright("seal", path, "--by", "T", "--pack", "us_small_craft", "--house-rules", house)
    done = fusewright("check", path, "--sealed")
    told = " ".join(done.out.split())
    assert "asked --pack: us_small_craft then, not there now" in told
    assert "rules house-rules yard.yaml: " in told
    assert "No longer judged" in told
    same = fusewright(
        "check", path, "--sealed", "--pack", "us_small_craft", "--house-rules", house
    )
    assert "Nothing has changed" in same.out


def test_a_seal_of_other_verdicts_is_not_written_over(systems: Any, fusewright: Any) -> None:
    path = systems.good()
    fusewright("seal", path, "--by", "T")
    first = seal_of(path)
    path.write_bytes(systems.failing().read_bytes())
    done = fusewright("seal", path, "--by", "U")
    assert done.status == 2
    assert "has other verdicts; it was left as it is" in done.err
    assert first["digest"][:12] in done.err
    assert "New fails (1)" in done.out
    assert seal_of(path) == first
    wrong = fusewright("seal", path, "--by", "U", "--replaces", "0123456789ab")
    assert wrong.status == 2
    assert seal_of(path) == first
    done = fusewright("seal", path, "--by", "U", "--replaces", first["digest"][:12])
    assert done.status == 1
    assert f"replaces the seal {first['digest'][:12]} of {first['date']} by T" in done.out
    assert seal_of(path)["replaces"] == {
        "digest": first["digest"], "date": first["date"], "by": "T", "verdict": "pass",
    }  # fmt: skip


def test_the_same_verdicts_are_sealed_anew_and_told(systems: Any, fusewright: Any) -> None:
    path = systems.good()
    fusewright("seal", path, "--by", "T")
    first = seal_of(path)
    done = fusewright("seal", path, "--by", "U")
    assert done.status == 0
    assert "replaces the seal" in done.out
    assert seal_of(path)["replaces"]["digest"] == first["digest"]


def test_a_damaged_seal_is_neither_used_nor_written_over(systems: Any, fusewright: Any) -> None:
    path = systems.good()
    fusewright("seal", path, "--by", "T")
    beside = path.with_name(path.name + ".seal.json")
    beside.write_bytes(beside.read_bytes()[:500])
    for words in (("check", path, "--sealed"), ("seal", path, "--by", "U")):
        done = fusewright(*words)
        assert (done.status, done.out) == (2, "")
        assert "cut off" in done.err
        assert "Traceback" not in done.err
    assert beside.stat().st_size == 500


@pytest.mark.parametrize(
    ("words", "message"),
    [
        (("--condition", "normal"), "a seal is of the whole job"),
        (("--rule", "interrupt-rating"), "a seal is of the whole job"),
        (("--format", "junit"), "junit has no place for it"),
        (("--format", "sarif"), "sarif has no place for it"),
    ],
)
def test_a_part_of_the_job_is_not_held_to_its_seal(
    words: tuple[str, ...], message: str, systems: Any, fusewright: Any
) -> None:
    path = systems.good()
    fusewright("seal", path, "--by", "T")
    done = fusewright("check", path, "--sealed", *words)
    assert (done.status, done.out) == (2, "")
    assert message in done.err


def test_what_cannot_be_sealed_leaves_nothing(systems: Any, fusewright: Any) -> None:
    for path, words in (
        (systems.broken(), ("--by", "T")),
        (systems.good(), ("--by", " ")),
        (systems.good(), ()),
        (systems.folder / "nowhere.yaml", ("--by", "T")),
        (systems.good(), ("--by", "T", "--replaces", "0" * 12)),
        (systems.good(), ("--by", "T", "--rules-from", systems.folder / "no.py")),
    ):
        done = fusewright("seal", path, *words)
        assert done.status == 2
        assert "Traceback" not in done.err
    assert not list(systems.folder.glob("*seal*"))
    done = fusewright("check", systems.good(), "--sealed")
    assert done.status == 2
    assert "there is no seal; allowed: fusewright seal FILE --by NAME" in done.err


def test_a_folder_that_cannot_be_written_to_is_told(systems: Any, process: Any) -> None:
    path = systems.good()
    path.with_name(path.name + ".seal.json").mkdir()
    done = process("seal", path, "--by", "T")
    assert done.status == 2
    assert "Traceback" not in done.err


def test_a_file_that_changes_meanwhile_has_no_seal(
    systems: Any, fusewright: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    from coordination.cli import seal

    path, judged = systems.good(), seal.judged

    def and_change(*arguments: Any) -> Any:
        path.write_text(path.read_text("utf-8") + "#\n", "utf-8")
        return judged(*arguments)

    monkeypatch.setattr(seal, "judged", and_change)
    done = fusewright("seal", path, "--by", "T")
    assert done.status == 2
    assert "changed while it was checked" in done.err
    assert not list(systems.folder.glob("*.seal.json"))


def test_hostile_names_are_kept_faithfully_and_shown_harmlessly(
    systems: Any, process: Any
) -> None:
    path = Path(os.fsdecode(bytes(systems.folder) + b"/a\nb\x1b[31m\xff.yaml"))
    path.write_bytes(systems.good().read_bytes())
    name = "J.\u202eTern\x1b]0;x\x07"
    done = process("seal", path, "--by", name)
    assert (done.status, done.err) == (0, "")
    assert seal_of(path)["by"] == name
    raw = path.with_name(path.name + ".seal.json").read_bytes()
    again = process("check", path, "--sealed", "--width", 200)
    assert "Nothing has changed" in again.out
    for text in (done.out.encode(), again.out.encode(), raw):
        assert b"\x1b" not in text
        assert "\u202e".encode() not in text


def test_the_readmes_example_is_what_is_printed(tmp_path: Path, fusewright: Any) -> None:
    """The demo van with its inverter 9 m away, as the README has it."""
    readme = (CHECKOUT / "README.md").read_text("utf-8")
    shown = re.search(r"--sealed`[^\n]*:\n\n```text\n(.*?)```", readme, re.DOTALL)
    assert shown is not None
    path = tmp_path / "van.yaml"
    text = (CHECKOUT / "fixtures/systems/van-cured.yaml").read_text("utf-8")
    path.write_text(text, "utf-8")
    fusewright("seal", path, "--by", "J. Tern", "--why", "before launch")
    old = "{cable: demo-cable-95, length: 0.4 m}"
    assert old in text
    path.write_text(text.replace(old, "{cable: demo-cable-95, length: 9 m}"), "utf-8")
    printed = fusewright("check", path, "--sealed").out
    dated = re.sub(r"\d{4}-\d\d-\d\d by", "2026-11-25 by", printed)
    dated = re.sub(r"[0-9a-f]{12}", "0" * 12, dated)
    for chunk in re.sub(r"[0-9a-f]{12}", "0" * 12, shown[1]).split("...\n"):
        assert chunk in dated
