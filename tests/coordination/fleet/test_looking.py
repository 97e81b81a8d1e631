"""Which files are looked at, in which order, and which of them are system files."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from coordination.cli.starter import STARTER
from coordination.errors import BadInput
from coordination.fleet.looking import is_system, look

CHECKOUT = Path(__file__).parents[3]


def fill(folder: Path, *names: str) -> None:
    for name in names:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text("system: x\n", "utf-8")


def names(folder: Path, *places: str) -> list[str]:
    found = look([str(folder / place) for place in places or ("",)])
    return [os.path.relpath(path, folder) for path in found.paths]


def test_yaml_below_a_folder_in_order(tmp_path: Path) -> None:
    fill(tmp_path, "b.yaml", "a/z.yml", "a/B.YAML", "c/d/e/f.yaml", "a.txt", "x.yaml.seal.json",
         ".hidden/h.yaml")  # fmt: skip
    assert names(tmp_path) == ["b.yaml", ".hidden/h.yaml", "a/B.YAML", "a/z.yml", "c/d/e/f.yaml"]


def test_each_file_once_however_often_it_is_named(tmp_path: Path) -> None:
    fill(tmp_path, "a/x.yaml", "a/b/y.yaml")
    assert names(tmp_path, "a/b", "a", "a/../a", "a/x.yaml") == ["a/b/y.yaml", "a/x.yaml"]


def test_links_that_lead_back_end(tmp_path: Path) -> None:
    fill(tmp_path, "a/x.yaml")
    (tmp_path / "a/loop").symlink_to(tmp_path)
    (tmp_path / "a/self").symlink_to("self")
    (tmp_path / "a/self.yaml").symlink_to("self.yaml")
    (tmp_path / "a/link.yaml").symlink_to("x.yaml")
    found = look([str(tmp_path)])
    shown = [os.path.relpath(path, tmp_path) for path in found.paths]
    assert shown == ["a/link.yaml", "a/x.yaml"]
    bad = [path for path, _ in found.unreadable] + list(found.odd)
    assert [os.path.basename(path) for path in bad] == ["self.yaml"]


def test_a_folder_behind_a_link_is_looked_into(tmp_path: Path) -> None:
    fill(tmp_path, "far/x.yaml")
    (tmp_path / "near").mkdir()
    (tmp_path / "near/link").symlink_to(tmp_path / "far")
    assert names(tmp_path, "near") == ["near/link/x.yaml"]


def test_pipes_and_dead_links_are_told_not_opened(tmp_path: Path) -> None:
    fill(tmp_path, "x.yaml")
    os.mkfifo(tmp_path / "pipe.yaml")
    (tmp_path / "dead.yml").symlink_to("nowhere")
    found = look([str(tmp_path)])
    assert [os.path.basename(path) for path in found.paths] == ["x.yaml"]
    assert [os.path.basename(path) for path in found.odd] == ["dead.yml", "pipe.yaml"]


def test_a_folder_that_cannot_be_read_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Whoever runs the tests may be allowed everything, so the system's refusal is played."""
    fill(tmp_path, "x.yaml", "shut/y.yaml")
    scandir = os.scandir

    def refuse(folder: str) -> object:
        if os.path.basename(folder) == "shut":
            raise PermissionError(13, "Permission denied", folder)
        return scandir(folder)

    monkeypatch.setattr("coordination.fleet.looking.os.scandir", refuse)
    found = look([str(tmp_path)])
    assert [os.path.basename(path) for path in found.paths] == ["x.yaml"]
    assert found.unreadable == ((str(tmp_path / "shut"), "permission denied"),)


def test_places_that_are_not_there_are_told_all_at_once(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(BadInput) as refused:
        look([str(tmp_path / "a"), str(tmp_path / "pipe"), "nul\0"])
    assert [each.what for each in refused.value.problems] == [
        "no such file or directory", "this is no file", "embedded null byte",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "text",
    [
        "system: x\nsources: {}\n",
        "# a comment\n\n---\n'system': x\npacks: [a]\n",
        "%YAML 1.2\n---\nsystem : x\n",
        "\ufeffsystem: x\n",
        "nominal_voltage: 12\nsystem: x\nbroken: [\n",
        '{"system": x, sources: {}}',
        "  system: x\n  sources:\n    a: {}\n",
        "system:\n",
        "sources:\n  a: {}\ncircuits:\n  b: {}\n",
        "system: x\r\nparts:\r\n",
    ],
)
def test_a_system_file(text: str) -> None:
    assert is_system(text.encode("utf-8"))
    assert is_system(text.removeprefix("\ufeff").encode("utf-16"))


@pytest.mark.parametrize(
    "text",
    [
        "",
        "# system: x\n",
        "services:\n  system: x\n  sources: y\n",
        "systematic: x\nsources: y\n",
        "house_rules: Tern\nrules: {}\n",
        "- system: x\n- sources: y\n",
        "system: Tern\ndate: 2026-03-05\nterminals: {}\n",
        "rule: a\nsystem: b.yaml\ncases: {}\n",
        "system:x\nsources: y\n",
        "\x00\x01system",
    ],
)
def test_no_system_file(text: str) -> None:
    assert not is_system(text.encode("utf-8"))


def test_the_demo_systems_and_what_lies_beside_them() -> None:
    assert is_system(STARTER.read_bytes())
    for path in (CHECKOUT / "fixtures/systems").rglob("*.yaml"):
        expected = path.name.endswith(".expected.yaml")
        assert is_system(path.read_bytes()) is not expected, path.name
    record = CHECKOUT / "tests/coordination/measured/record.yaml"
    assert not is_system(record.read_bytes())
