"""`fusewright compare`: two files, a seal, an answer, two catalogues, two editions."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest

HERE = Path(__file__).parents[1] / "comparison"
BANK = HERE / "bank.yaml"
SYSTEMS = Path(__file__).parents[3] / "fixtures" / "systems"
VAN, CURED = SYSTEMS / "van-planted.yaml", SYSTEMS / "van-cured.yaml"


def weaker(folder: Path, name: str = "weaker.yaml") -> Path:
    """The bank with a main fuse that breaks 11 kA, where 11.55 kA can flow."""
    path = folder / name
    path.write_text(BANK.read_text("utf-8").replace("current: 14 kA", "current: 11 kA"), "utf-8")
    return path


def test_a_new_fail_ends_with_1_and_says_why(fusewright: Any, tmp_path: Path) -> None:
    done = fusewright("compare", BANK, weaker(tmp_path))
    assert (done.status, done.err) == (1, "")
    told = " ".join(done.out.split())
    assert told.startswith("1 new fail, 0 newly unproven")
    assert "New fails (1)" in told
    assert "pass, margin 1.212 fail, margin 0.9524" in told
    assert "more than the interrupt rating of 11.0 kA" in told
    assert "safe" not in told.lower()
    assert max(map(len, done.out.splitlines())) <= 80


def test_a_cure_ends_with_0(fusewright: Any, tmp_path: Path) -> None:
    done = fusewright("compare", weaker(tmp_path), BANK)
    assert done.status == 0
    assert "Cured (1)" in done.out


def test_the_same_file_twice_differs_in_nothing(fusewright: Any) -> None:
    done = fusewright("compare", BANK, BANK)
    assert done.status == 0
    assert "Nothing differs beyond the threshold." in done.out


def test_newly_unproven_without_a_new_fail_ends_with_3(fusewright: Any, tmp_path: Path) -> None:
    path = tmp_path / "silent.yaml"
    rating = "interrupt_ratings: [{voltage: 32 V, current: 14 kA}], "
    text = BANK.read_text("utf-8")
    assert text.count(rating) == 1
    path.write_text(text.replace(rating, ""), "utf-8")
    done = fusewright("compare", BANK, path)
    assert done.status == 3
    assert "Newly unproven (1)" in done.out


def test_the_answer_for_machines_keeps_to_its_schema(fusewright: Any) -> None:
    answer = json.loads(fusewright("compare", VAN, CURED, "--format", "json").out)
    schema = json.loads(fusewright("schema", "comparison").out)
    jsonschema.validate(answer, schema)
    assert answer["status"] == 0
    cured = {each["subject"] for each in answer["moves"] if each["how"] == "cured"}
    assert {"block fuse", "inverter fuse", "dc-dc input cable"} <= cured
    assert {"before": "main fuse", "after": "house fuse"} in answer["renames"]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**answer, "moves": [{"how": "worse"}]}, schema)


def test_markdown_holds_the_same(fusewright: Any, tmp_path: Path) -> None:
    done = fusewright("compare", BANK, weaker(tmp_path), "--format", "markdown")
    assert done.status == 1
    assert done.out.startswith("# 1 new fail")
    assert "## New fails (1)" in done.out
    assert "| main fuse" in done.out


def test_a_seal_is_the_old_side(fusewright: Any, tmp_path: Path) -> None:
    """The file was sealed, then its fuse became weaker."""
    path = tmp_path / "job.yaml"
    path.write_bytes(BANK.read_bytes())
    assert fusewright("seal", path, "--by", "J. Tern").status == 3
    weaker(tmp_path, "job.yaml")
    done = fusewright("compare", path)
    assert done.status == 1
    told = " ".join(done.out.split())
    assert "New fails (1)" in told
    assert "by J. Tern" in told
    assert "not held currents, the drawing: one side does not keep them" in told
    assert "part main-400" in told
    named = fusewright("compare", f"{path}.seal.json", path, "--format", "json")
    answer = json.loads(named.out)
    assert (answer["currents"], answer["things"], answer["status"]) == (None, None, 1)
    assert [each["name"] for each in answer["parts"]] == ["main-400"]


def test_an_answer_is_a_side(fusewright: Any, tmp_path: Path) -> None:
    kept = tmp_path / "kept.json"
    kept.write_text(fusewright("check", BANK, "--all", "--format", "json").out, "utf-8")
    done = fusewright("compare", kept, weaker(tmp_path))
    assert done.status == 1
    assert "New fails (1)" in done.out
    same = fusewright("compare", kept, BANK, "--format", "json")
    answer = json.loads(same.out)
    assert (same.status, answer["moves"], answer["currents"]) == (0, [], [])
    assert answer["things"] is None


def test_one_file_under_two_catalogues(fusewright: Any, tmp_path: Path) -> None:
    """A shop's fuse, 14 kA in one catalogue and 11 kA in the other; 11.55 kA can flow."""
    shops = []
    for name, rating in (("a", "14 kA"), ("b", "11 kA")):
        sheet = tmp_path / f"{name}.csv"
        sheet.write_text(
            "id,kind,family,rated_current,rated_voltage,interrupt_ratings\n"
            f"shop-400,fuse,strip,400 A,32 V,{rating} @ 32 V\n",
            "utf-8",
        )
        shop = tmp_path / f"{name}.db"
        assert fusewright("parts", "import", sheet, "--catalogue", shop).status == 0
        shops.append(shop)
    path = tmp_path / "job.yaml"
    path.write_text(BANK.read_text("utf-8").replace("fuse: main-400", "fuse: shop-400"), "utf-8")
    done = fusewright(
        "compare", path, "--catalogue", shops[0], "--against-catalogue", shops[1],
        "--format", "json",
    )  # fmt: skip
    assert done.status == 1
    answer = json.loads(done.out)
    (fail,) = (each for each in answer["moves"] if each["how"] == "new fail")
    assert fail["subject"] == "main fuse"
    assert fail["margin_before"] == pytest.approx(14e3 / (13.6 * 849.25), rel=1e-4)
    assert "b.db" in answer["after"]["label"]
    assert [each["name"] for each in answer["parts"]] == ["shop-400"]


def test_one_file_under_two_editions(fusewright: Any) -> None:
    done = fusewright(
        "compare", SYSTEMS / "tender-cured.yaml", "--edition", "us_premises@2017",
        "--against-edition", "us_premises@2023", "--format", "json",
    )  # fmt: skip
    answer = json.loads(done.out)
    (pack,) = answer["packs"]
    assert pack["field"] == "us_premises"
    assert pack["before"].endswith("edition 2017")
    assert pack["after"].endswith("edition 2023")
    assert answer["things"] == []


def test_an_edition_there_is_not_leaves_something_unchecked(fusewright: Any) -> None:
    done = fusewright("compare", BANK, "--against-edition", "fundamentals@1999")
    assert done.status == 3
    assert "Newly unchecked (1)" in done.out
    assert "1999" in done.out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        ((BANK,), "it has no seal"),
        ((BANK, "none.yaml"), "none.yaml"),
        ((BANK, BANK, "--threshold", "1"), "--threshold"),
        ((BANK, BANK, "--threshold", "100 %"), "out of range"),
    ],
)
def test_what_cannot_be_used_ends_with_2(
    arguments: tuple[object, ...], words: str, fusewright: Any
) -> None:
    done = fusewright("compare", *arguments)
    assert (done.status, done.out) == (2, "")
    assert words in done.err


@pytest.mark.parametrize("text", ["", "{", "[]", '{"fusewright": 1}', "[" * 100_000, "\x00"])
def test_no_answer_is_refused_with_2(text: str, fusewright: Any, tmp_path: Path) -> None:
    path = tmp_path / "kept.json"
    path.write_text(text, "utf-8")
    done = fusewright("compare", path, BANK)
    assert (done.status, done.out) == (2, "")
    assert "no answer of check --format json" in done.err


def test_an_answer_in_part_is_refused(fusewright: Any, tmp_path: Path) -> None:
    path = tmp_path / "kept.json"
    for options, words in (
        (("--only", "fail"), "does not show all"),
        (("--rule", "interrupt-rating"), "a part of the job"),
    ):
        path.write_text(fusewright("check", VAN, "--format", "json", *options).out, "utf-8")
        done = fusewright("compare", path, VAN)
        assert (done.status, done.out) == (2, "")
        assert words in done.err


def test_names_out_of_a_kept_answer_move_no_cursor(fusewright: Any, tmp_path: Path) -> None:
    answer = json.loads(fusewright("check", BANK, "--all", "--format", "json").out)
    answer["findings"][0]["subject"] = "x\x1b[31m\u202e|<b>"
    answer["findings"][0]["verdict"] = "fail"
    answer["system"] = "y\x9b"
    path = tmp_path / "kept.json"
    path.write_text(json.dumps(answer), "utf-8")
    for form in ("text", "markdown"):
        out = fusewright("compare", BANK, path, "--format", form).out
        assert "x\\x1b[31m" in out.replace("\\\\", "\\").replace("\\[", "[")
        assert not {"\x1b", "\u202e", "\x9b"} & set(out)
    assert "<b>" not in out
