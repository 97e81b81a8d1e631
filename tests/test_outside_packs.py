"""Packs from outside: a new one and the example yard's, installed in a new environment and run."""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import sysconfig
from pathlib import Path
from typing import Any

import pytest

from coordination.cli.new_pack import write_pack

CHECKOUT = Path(__file__).parents[1]
EXAMPLE = CHECKOUT / "fixtures" / "example_shop_pack"
LAUNCH = EXAMPLE / "fusewright_myyard/cases/systems/launch.yaml"


class Fresh:
    """A new virtual environment that sees this one's packages, and into which packs are installed.

    Nothing is fetched: what they need is what the tests need.
    """

    def __init__(self, folder: Path) -> None:
        subprocess.run([sys.executable, "-m", "venv", "--without-pip", folder], check=True)
        self.python = folder / ("Scripts/python.exe" if os.name == "nt" else "bin/python")
        inside = self.run("-c", "import sysconfig; print(sysconfig.get_path('purelib'))").stdout
        seen = dict.fromkeys((sysconfig.get_path("purelib"), sysconfig.get_path("platlib")))
        lines = "".join(f"import site; site.addsitedir({path!r})\n" for path in seen)
        Path(inside.strip(), "seen.pth").write_text(lines)

    def run(self, *words: str, folder: Path | None = None) -> subprocess.CompletedProcess[str]:
        environment = {k: v for k, v in os.environ.items() if k != "PYTHONPATH"}
        command = [str(self.python), *words]
        return subprocess.run(
            command, capture_output=True, text=True, check=False, cwd=folder, env=environment
        )

    def install(self, *folders: Path) -> None:
        pip = [sys.executable, "-m", "pip", "--python", str(self.python), "install", "-q"]
        alone = ["--no-deps", "--no-index", "--no-build-isolation", "--disable-pip-version-check"]
        done = subprocess.run(
            [*pip, *alone, *map(str, folders)], capture_output=True, text=True, check=False
        )
        assert done.returncode == 0, done.stderr


@pytest.fixture(scope="module")
def fresh(tmp_path_factory: pytest.TempPathFactory) -> Any:
    """The environment with both packs, and where their sources are."""
    folder = tmp_path_factory.mktemp("fresh")
    write_pack("tern_yard", str(folder / "tern"))
    shutil.copytree(EXAMPLE, folder / "myyard")
    environment = Fresh(folder / "venv")
    environment.install(folder / "tern", folder / "myyard")
    return environment, folder


@pytest.mark.parametrize(("pack", "tests"), [("tern", 7), ("myyard", 9)])
def test_its_own_tests_pass(fresh, pack, tests):
    environment, folder = fresh
    done = environment.run("-m", "pytest", "-q", "-p", "no:cacheprovider", folder=folder / pack)
    assert done.returncode == 0, done.stdout + done.stderr
    assert f"{tests} passed" in done.stdout


def test_both_are_found_and_listed(fresh):
    environment, folder = fresh
    start = "from coordination.cli import main; main()"
    listed = environment.run("-c", start, "rules", folder=folder)
    assert "tern_yard/least-area" in listed.stdout
    assert "myyard/stocked-rating" in listed.stdout


def test_a_check_by_it_prints_edition_section_and_json(fresh):
    environment, folder = fresh
    start = ("-c", "from coordination.cli import main; main()", "check", str(LAUNCH))
    text = environment.run(*start, folder=folder)
    assert "myyard 1.0.0, edition 2026, in force 2026-03-01 (2 rules)" in text.stdout
    assert "Spares to put aboard (myyard)" in text.stdout
    done = environment.run(*start, "--format", "json", folder=folder)
    answer = json.loads(done.stdout)
    assert done.returncode == 0
    assert {each["rule"]: each["verdict"] for each in answer["findings"]} == {
        "myyard/stocked-rating": "pass",
        "myyard/cranking-declared": "pass",
    }
    (pack,) = answer["packs"]
    assert (pack["edition"], pack["applies"], pack["status"]) == ("2026", True, "practice")
    (section,) = answer["sections"]
    assert (section["pack"], section["rows"]) == ("myyard", [["link", "3"]])


@pytest.fixture
def launch(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Any:
    """Checks the launch, its text changed, the example pack offered as an installed one is."""
    from coordination.checking import Request, findings_of

    info = tmp_path / "fusewright_myyard-1.0.0.dist-info"
    info.mkdir()
    (info / "entry_points.txt").write_text("[fusewright.packs]\nmyyard = fusewright_myyard.pack\n")
    monkeypatch.syspath_prepend(EXAMPLE)
    monkeypatch.syspath_prepend(tmp_path)

    def run(*changes: tuple[str, str]) -> Any:
        text = LAUNCH.read_text("utf-8")
        for old, new in changes:
            assert text.count(old) == 1
            text = text.replace(old, new)
        (tmp_path / "launch.yaml").write_text(text, "utf-8")
        return findings_of(Request(str(tmp_path / "launch.yaml")))

    return run


def test_an_older_edition_asks_less(launch):
    result = launch(("myyard@2026", "myyard@2025"))
    assert [each.rule for each in result.findings] == ["myyard/stocked-rating"]


@pytest.mark.parametrize(
    ("stated", "verdict"), [("ours: no, ", "note"), ("", "unproven"), ("ours: yes, ", "pass")]
)
def test_it_speaks_only_of_its_own_boats(launch, stated, verdict):
    result = launch(("ours: yes, ", stated))
    assert {each.verdict for each in result.findings} == {verdict}
    assert result.exit_status == (0 if verdict == "pass" else 3)
    if verdict == "unproven":
        assert result.findings[0].missing == ("options: myyard: ours (yes or no)",)
