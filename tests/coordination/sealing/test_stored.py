"""A seal's file: what is written is read back, and what is damaged is refused with the reason."""

from __future__ import annotations

import hashlib
import json
import random
from pathlib import Path
from typing import Any

import jsonschema
import msgspec
import pytest

from coordination.checking import Request, judged, prepare
from coordination.checking.bench import Bench
from coordination.cli.starter import STARTER
from coordination.errors import BadInput
from coordination.sealing import Seal, Signed, make_seal, read_seal, text_of_seal
from coordination.sealing.schema import seal_schema
from coordination.sealing.stored import digest_of_seal


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Seal:
    path = tmp_path_factory.mktemp("seal") / "job.yaml"
    path.write_bytes(STARTER.read_bytes())
    request = Request(str(path))
    with Bench() as bench:
        findings = judged(request, *prepare(request, bench))
        sha256 = hashlib.sha256(path.read_bytes()).hexdigest()
        return make_seal(findings, request, bench, sha256, Signed("Ω\x9b", "x", "2026-11-25"))


@pytest.fixture
def text(made: Seal) -> str:
    return text_of_seal(made)


def refusal(path: Path, content: bytes) -> str:
    path.write_bytes(content)
    with pytest.raises(BadInput) as refused:
        read_seal(str(path))
    (problem,) = refused.value.problems
    assert problem.file == str(path)
    return problem.what


def test_what_is_written_is_read_back(made: Seal, text: str, tmp_path: Path) -> None:
    path = tmp_path / "a.seal.json"
    path.write_text(text, encoding="utf-8")
    assert read_seal(str(path)) == made
    assert made.by == "Ω\x9b"
    assert "\x9b" not in text
    assert '"Ω\\u009b"' in text


def test_the_file_is_of_its_published_shape(text: str) -> None:
    found = json.loads(text)
    schema = seal_schema()
    jsonschema.Draft202012Validator.check_schema(schema)
    jsonschema.validate(found, schema)
    assert found["fusewright_seal"] == 1
    assert set(found["verdicts"]) >= {"fundamentals/interrupt-rating"}
    for part in found["parts"].values():
        plain = json.dumps(part["content"], sort_keys=True, separators=(",", ":"))
        assert hashlib.sha256(plain.encode()).hexdigest() == part["sha256"]


def test_the_digest_is_as_documented(text: str) -> None:
    found = json.loads(text)
    digest = found.pop("digest")
    plain = json.dumps(found, sort_keys=True, separators=(",", ":"))
    assert hashlib.sha256(plain.encode("ascii")).hexdigest() == digest


@pytest.mark.parametrize("share", [0.0, 0.01, 0.3, 0.5, 0.9, 0.999])
def test_a_seal_that_is_cut_off_is_refused(text: str, share: float, tmp_path: Path) -> None:
    cut = text.encode()[: int(len(text.encode()) * share)]
    assert "cut off" in refusal(tmp_path / "s", cut) or "damaged" in refusal(tmp_path / "s", cut)


def test_every_flipped_bit_is_noticed(text: str, tmp_path: Path) -> None:
    """Or it changed nothing: a blank between keys."""
    whole, path = text.encode(), tmp_path / "s"
    chance = random.Random(4)
    for _ in range(200):
        damaged = bytearray(whole)
        damaged[chance.randrange(len(damaged))] ^= 1 << chance.randrange(8)
        path.write_bytes(bytes(damaged))
        try:
            assert json.loads(bytes(damaged)) == json.loads(text)
            assert read_seal(str(path))
        except (ValueError, AssertionError):
            with pytest.raises(BadInput):
                read_seal(str(path))


def test_a_forged_verdict_is_noticed(text: str, tmp_path: Path) -> None:
    path = tmp_path / "s"
    forged = text.replace('"margin"', '"margim"', 1)
    assert "changed after it was made" in refusal(path, forged.encode())
    found = json.loads(text)
    found["counts"]["pass"] += 1
    assert "changed after it was made" in refusal(path, json.dumps(found).encode())
    found["digest"] = digest_of_seal(found)
    assert "contradicts itself" in refusal(path, json.dumps(found).encode())


def test_a_pass_with_open_ends_contradicts_itself(text: str, tmp_path: Path) -> None:
    found = json.loads(text)
    assert found["verdict"] == "pass"
    found["problems"] = ["pack 'x' could not be used"]
    found["digest"] = digest_of_seal(found)
    assert "contradicts itself" in refusal(tmp_path / "s", json.dumps(found).encode())


def test_a_newer_seal_says_so(text: str, tmp_path: Path) -> None:
    newer = text.replace('"fusewright_seal": 1', '"fusewright_seal": 2')
    assert "format 2, made by a newer Fusewright" in refusal(tmp_path / "s", newer.encode())


def test_keys_of_later_versions_pass(made: Seal, tmp_path: Path) -> None:
    found: dict[str, Any] = {**msgspec.to_builtins(made), "later": [1]}
    found["digest"] = digest_of_seal(found)
    path = tmp_path / "s"
    path.write_text(json.dumps(found), encoding="utf-8")
    assert read_seal(str(path)).system == made.system


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"", "cut off"),
        (b"\xff\xfe{}", "no UTF-8"),
        (b"[]", "this is no seal"),
        (b'{"a": 1}', "this is no seal"),
        (b'{"fusewright_seal": 1, "fusewright_seal": 1}', "a key stands twice"),
        (b'{"fusewright_seal": NaN}', "NaN is no number"),
        (b'{"fusewright_seal": "1"}', "damaged"),
        (b'{"fusewright_seal": 0}', "damaged"),
        (b'{"fusewright_seal": true}', "damaged"),
        (b'{"fusewright_seal": 1}', "damaged: Object missing required field"),
        (b"[" * 100_000, "nested too deep"),
    ],
)
def test_what_is_no_seal_is_refused(content: bytes, words: str, tmp_path: Path) -> None:
    assert words in refusal(tmp_path / "s", content)


def test_a_folder_is_no_seal(tmp_path: Path) -> None:
    with pytest.raises(BadInput) as refused:
        read_seal(str(tmp_path))
    assert "cannot be read" in refused.value.problems[0].what
