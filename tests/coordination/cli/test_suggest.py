"""`fusewright suggest`: what people and machines are told, and what is written."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from tests.coordination.suggest.conftest import Kit, cable, fuse

WEAK = fuse(100, "5 kA", 32, "sb-100")
CANNOT = fuse(60)
C35 = cable(35, 9.9)


@pytest.fixture
def curable(tmp_path: Path) -> Path:
    return Kit(tmp_path).one("sb-100", "cable-35", 85, [WEAK, fuse(110), C35])


@pytest.fixture
def incurable(tmp_path: Path) -> Path:
    return Kit(tmp_path).one("sb-100", "cable-35", 85, [WEAK, CANNOT, C35])


def test_a_cure_is_told_with_its_diff(fusewright: Any, curable: Path) -> None:
    before = curable.read_bytes()
    done = fusewright("suggest", curable, "main fuse")
    assert done.status == 0
    told = " ".join(done.out.split())
    assert "1 change for main fuse: all of its rules hold in every condition (1 fail)." in told
    assert "- main fuse: t-110 in place of sb-100" in told
    assert "fundamentals/interrupt-rating main fuse: margin 0.312 -> 1.25" in told
    assert "- - {fuse: sb-100, name: 'main fuse', distance: 100 mm} # on the post" in told
    assert "+ - {fuse: t-110, name: 'main fuse', distance: 100 mm} # on the post" in told
    assert "combinations judged" in told or "combination judged" in told
    assert "safe" not in told
    assert curable.read_bytes() == before


def test_apply_writes_once_and_then_nothing(fusewright: Any, curable: Path) -> None:
    first = fusewright("suggest", curable, "--apply")
    assert first.status == 0
    assert "is written with answer 1" in first.out
    written = curable.read_bytes()
    assert b"{fuse: t-110, name: 'main fuse', distance: 100 mm}   # on the post" in written
    second = fusewright("suggest", curable, "--apply")
    assert second.status == 0
    assert "Nothing fails" in second.out
    assert curable.read_bytes() == written


def test_an_answer_that_is_not_there_is_not_written(fusewright: Any, curable: Path) -> None:
    before = curable.read_bytes()
    done = fusewright("suggest", curable, "main fuse", "--apply", "--answer", 9)
    assert done.status == 2
    assert "there is no answer 9" in done.err
    assert curable.read_bytes() == before


def test_a_read_only_file_is_said_to_be_so(fusewright: Any, curable: Path) -> None:
    curable.chmod(0o444)
    done = fusewright("suggest", curable, "main fuse", "--apply")
    assert done.status == 2
    assert "read-only" in done.err


def test_what_has_no_cure_is_told_with_the_least_waiver(fusewright: Any, incurable: Path) -> None:
    done = fusewright("suggest", incurable, "main fuse")
    assert done.status == 1
    told = " ".join(done.out.split())
    assert "No changes were found that cure main fuse (1 fail)." in told
    assert "Nothing within the bounds makes fundamentals/interrupt-rating hold" in told
    assert "a waiver mends none" in told
    assert "no part at hand that carries 85.0 A, holds 28.8 V, breaks 16.0 kA" in told
    lines = [line for line in done.out.splitlines() if "- {rule:" in line]
    (waiver,) = yaml.safe_load("\n".join(line.strip() for line in lines))
    assert (waiver["rule"], waiver["subject"]) == ("fundamentals/interrupt-rating", "main fuse")
    # Nobody has accepted anything yet: who and why are left to write.
    assert (waiver["by"], waiver["reason"]) == ("", "")


def test_a_stopped_search_claims_nothing(fusewright: Any, incurable: Path) -> None:
    done = fusewright("suggest", incurable, "run", "--limit", 1)
    assert done.status == 0
    done = fusewright("suggest", incurable, "main fuse", "--limit", 1)
    assert done.status == 3
    assert "then stopped at the limit" in " ".join(done.out.split())


@pytest.mark.parametrize("which", ["curable", "incurable"])
def test_json_keeps_to_its_schema(
    fusewright: Any, request: pytest.FixtureRequest, which: str
) -> None:
    path = request.getfixturevalue(which)
    schema = json.loads(fusewright("schema", "suggest").out)
    answer = json.loads(fusewright("suggest", path, "main fuse", "--format", "json").out)
    jsonschema.validate(answer, schema)
    if which == "curable":
        (cure,) = answer["cures"]
        assert [each["part"] for each in cure["changes"]] == ["t-110"]
        assert cure["fixed"][0]["margin_after"] == pytest.approx(1.25)
        assert cure["counts"]["fail"] == 0
    else:
        assert answer["conflict"]["rules"] == ["fundamentals/interrupt-rating"]
        assert answer["lacking"][0]["breaks_A"] == pytest.approx(16_000)
        assert answer["lacking"][0]["holds_V"] == pytest.approx(28.8)


def test_a_subject_that_is_not_there_has_a_near_miss(fusewright: Any, curable: Path) -> None:
    done = fusewright("suggest", curable, "mian fuse")
    assert done.status == 2
    assert "main fuse" in done.err


def test_names_are_shown_not_sent(fusewright: Any, curable: Path, tmp_path: Path) -> None:
    """A bidirectional override in a comment of the file would turn the diff around."""
    text = curable.read_text("utf-8").replace("# on the post", "# on \u202e the post")
    path = tmp_path / "turned.yaml"
    path.write_text(text, "utf-8")
    out = fusewright("suggest", path, "main fuse").out
    assert "\u202e" not in out
    assert "\\u202e" in out


def test_a_file_that_cannot_be_read_is_told_as_check_tells_it(
    fusewright: Any, tmp_path: Path
) -> None:
    path = tmp_path / "broken.yaml"
    path.write_text("system: x\nsorces: {}\n", "utf-8")
    done = fusewright("suggest", path)
    assert done.status == 2
    assert f"{path}:2:1:" in done.err
