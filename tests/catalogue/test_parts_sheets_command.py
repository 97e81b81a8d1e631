"""Sheets, finding, merging and completion as a user of `fusewright parts` has them."""

from __future__ import annotations

import json
import os
import subprocess
import sys

import jsonschema
import pytest
from typer.testing import CliRunner

from coordination.cli.parts import app
from coordination.report.parts_types import DoubtsAnswer, ImportAnswer, PartsFile, UsesAnswer
from coordination.report.schema import schema_of

RUN = [sys.executable, "-c", "from coordination.cli import main; main()"]


def run(*arguments, status=0):
    result = CliRunner().invoke(app, [str(argument) for argument in arguments])
    assert result.exit_code == status, (result.output, result.exception)
    return result.stderr if status == 2 else result.stdout


@pytest.fixture
def shop(tmp_path):
    return tmp_path / "shop.sqlite"


@pytest.fixture
def sheet(tmp_path):
    """A maker's list as a shop has it, and the map that reads it."""
    path, map_path = tmp_path / "list.csv", tmp_path / "map.yaml"
    path.write_text(
        "made on 2026-03-02,,,\n"
        "Part no.,Amps,kA at 32 V,Price\n"
        "f-1,300,20,3.50\n"
        "f-2,400,10,4.00\n",
        encoding="utf-8",
    )
    map_path.write_text(
        "heading: 2\n"
        "columns:\n"
        "  Part no.: id\n"
        "  Amps: rated_current [A]\n"
        "  kA at 32 V: {field: interrupt_ratings, unit: kA, at: 32 V}\n"
        "constant: {kind: fuse, family: class-t, status: draft}\n"
        "ignore: [Price]\n",
        encoding="utf-8",
    )
    return path, map_path


def test_a_sheet_with_headings_of_its_own_is_read_by_a_map(shop, sheet):
    path, map_path = sheet
    arguments = ["import", path, "--map", map_path, "--catalogue", shop]
    shown = run(*arguments, "--dry-run").splitlines()
    assert shown[0] == "2 new, 0 changed, 0 same; nothing was written"
    assert not shop.exists()
    assert run(*arguments) == f"2 parts added to {shop}\n"
    text = run("show", "f-1", "--catalogue", shop)
    assert "20 kA @ 32 V" in text
    assert "class-t" in text


def test_a_dry_run_shows_what_changes_field_by_field(shop, sheet):
    path, map_path = sheet
    arguments = ["import", path, "--map", map_path, "--catalogue", shop]
    run(*arguments)
    path.write_text(path.read_text().replace("f-1,300", "f-1,350"), encoding="utf-8")
    lines = run(*arguments, "--dry-run").splitlines()
    assert lines[0] == "0 new, 1 changed, 1 same; nothing was written"
    assert lines[4].split() == ["f-1", "changed", "rated_current", "300", "A", "350", "A"]
    assert "already in the catalogue, with other figures: 'f-1'" in run(*arguments, status=2)
    assert "300 A" in run("show", "f-1", "--catalogue", shop)
    assert "0 parts added" in run(*arguments, "--replace")
    assert "350 A" in run("show", "f-1", "--catalogue", shop)


def test_errors_of_the_map_and_of_the_sheet_stand_at_their_places(shop, sheet):
    path, map_path = sheet
    text = map_path.read_text()
    map_path.write_text(text.replace("Amps: rated_current", "Amp: rated_current"))
    found = run("import", path, "--map", map_path, "--catalogue", shop, status=2)
    assert f"{map_path}:4:3: the sheet has no column 'Amp' in row 2; did you mean 'Amps'?" in found
    assert f"{path}:2: column B (Amps): the map does not say what 'Amps' is" in found
    map_path.write_text(
        text.replace("rated_current [A]", "rated_curent [A]").replace("kind: fuse", "kind: fuze")
    )
    found = run("import", path, "--map", map_path, "--catalogue", shop, status=2)
    assert f"{map_path}:4:9: 'rated_curent [A]' is no field of a part" in found
    assert f"{map_path}:6:18: 'fuze' is no kind of part" in found
    assert "did you mean 'fuse'?" in found
    assert not shop.exists()


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("- a\n", "a map is no list"),
        ("columns: 3\n", "columns wants `heading: field` pairs"),
        ("columns: {A: id, B: id}\n", "id is mapped twice"),
        ("columns: {A: id}\nconstant: {id: x, kind: fuse}\n", "an id cannot be the same"),
        ("columns: {A: id}\nignore: [A]\n", "is mapped, and left aside as well"),
        ("columns: {A: {field: notes, at: 3 V}}\n", "`at` belongs to interrupt_ratings"),
        ("columns: {A: \"notes [A]\"}\n", "notes takes no unit"),
        ("heading: top\ncolumns: {A: id}\n", "heading wants the number of a row"),
        ("columns: {A: *x}\n", "alias"),
    ],
)
def test_a_map_that_is_none(shop, sheet, text, says):
    sheet[1].write_text(text)
    assert says in run("import", sheet[0], "--map", sheet[1], "--catalogue", shop, status=2)


@pytest.mark.parametrize("ending", ["csv", "xlsx", "json"])
def test_what_the_command_exports_it_imports(shop, tmp_path, ending):
    path, again = tmp_path / f"parts.{ending}", tmp_path / "again.csv"
    run("export", path, "--kind", "busbar")
    assert run("import", path, "--catalogue", shop).startswith("23 parts added")
    first = tmp_path / "first.csv"
    run("export", first, "--kind", "busbar")
    assert run("export", again, "--own", "--catalogue", shop) == f"{again} written: 23 parts\n"
    assert again.read_bytes() == first.read_bytes()


def test_markdown_is_for_reading(shop, tmp_path):
    run("add", "x", "--kind", "fuse", "notes=a|b <b>c</b> \x1b[31m", "--catalogue", shop)
    path = tmp_path / "parts.md"
    run("export", path, "--own", "--catalogue", shop)
    (row,) = [line for line in path.read_text().splitlines() if line.startswith("| x")]
    assert r"a\|b &lt;b&gt;c&lt;/b&gt; \\x1b\[31m" in row
    assert "save it as CSV" in run("import", path, "--catalogue", shop, status=2)
    assert "no format of an export" in run("export", tmp_path / "parts.pdf", status=2)


def test_doubts_are_told_on_the_way_in_and_later(shop, tmp_path):
    told = run("add", "big", "--kind", "fuse", "family=blade", "interrupt_ratings=10 kA @ 32 V",
               "--catalogue", shop)  # fmt: skip
    assert "doubt: big: interrupt_ratings.0.current: 10.0 kA at 32.0 V; expected about 1.00" in told
    path = tmp_path / "s.csv"
    path.write_text("id,kind,description,area\nlead,cable,4/0 AWG lead,50 mm²\n", encoding="utf-8")
    assert "expected 107 mm² (ASTM B258" in run("import", path, "--catalogue", shop)
    found = run("doubts", "--catalogue", shop, status=1)
    assert found.splitlines()[-1] == "2 parts looked at, 2 doubts"
    assert run("doubts", "fuse-t-300", "--catalogue", shop) == "1 part looked at, 0 doubts\n"
    assert "did you mean 'lead'" in run("doubts", "lead1", "--catalogue", shop, status=2)


def test_finding_by_measure_as_a_command():
    lines = run(
        "find", "--kind", "fuse", "--current", ">=250 A", "--interrupt", ">=12 kA @ 28.8 V",
        "--sort", "current", "--limit", "2",
    ).splitlines()  # fmt: skip
    # IEC 60269-2: gG breaks 25 kA; class T as commonly marked 20 kA.
    assert [line.split()[0] for line in lines[:2]] == ["fuse-gg-250-dc", "fuse-t-250-dc"]
    assert lines[2] == "more parts fit: --limit shows more than 2"
    both = run("find", "class t", "--kind", "fuse", "--current", ">=250 A", "--limit", "1")
    assert both.split()[0] == "fuse-t-250"
    assert "add --kind fuse" in run("find", "--current", ">=250 A", status=2)
    near = run("find", "fuze-gg-100", status=1).splitlines()
    assert near[0] == "nothing fits 'fuze-gg-100'; these fit 'fuse gg 100':"


@pytest.fixture
def jobs(tmp_path):
    folder = tmp_path / "jobs"
    (folder / "old").mkdir(parents=True)
    (folder / "a.yaml").write_text(
        "system: a\ncircuits:\n  feed:\n    from: x\n    to: y\n    parts:\n"
        "      - {fuse: fuse-t-300}\n      - {cable: c, length: 1 m, return: {cable: own}}\n"
        "      - {fuse: fuse-t-300, name: main fuse}\n"
    )
    (folder / "old" / "b.yaml").write_text(
        "system: b\nparts: {own: {kind: cable}}\nsources: {pack: {part: own}}\n"
        "circuits: {d: {from: a, to: b, parts: [{cable: own}]}}\n"
    )
    (folder / "notes.yaml").write_text("shopping: [fuse-t-300]\n")
    return folder


def test_where_a_part_is_used(jobs):
    lines = run("where-used", "fuse-t-300", jobs, "--width", "200").splitlines()
    assert lines[0] == f"fuse-t-300 is named in 1 of 2 system files in {jobs}"
    assert [line.split(None, 1) for line in lines[4:]] == [
        [f"{jobs}/a.yaml:7:16", "feed/1"],
        [f"{jobs}/a.yaml:9:16", "main fuse"],
    ]
    text = run("where-used", "own", jobs, "--width", "200")
    assert "feed/2, return\n" in text
    assert "sources, pack (the file's own part of that id)\n" in text
    assert "d/1 (the file's own part of that id)\n" in text


def test_a_part_that_is_not_used_and_a_file_that_cannot_be_read(jobs):
    assert "did you mean 'fuse-t-400'" in run("where-used", "fuse-t400", jobs, status=1)
    (jobs / "broken.yaml").write_text("system: [\n")
    text = run("where-used", "fuse-t-300", jobs, status=3)
    assert "Not read, so that it may be named there too:" in text
    assert f"{jobs}/broken.yaml:2:1: " in text
    found = json.loads(run("where-used", "fuse-t-300", jobs, "--format", "json", status=3))
    assert [use["line"] for use in found["uses"]] == [7, 9]
    assert [each["file"] for each in found["broken"]] == [f"{jobs}/broken.yaml"]
    assert (found["systems"], found["others"]) == (2, 1)
    assert "there is no such folder" in run("where-used", "x", jobs / "none", status=2)


def test_merging_as_a_command(shop, tmp_path):
    other = tmp_path / "other.sqlite"
    for path, amps in ((shop, "300 A"), (other, "350 A")):
        run("add", "f", "--kind", "fuse", f"rated_current={amps}", "--catalogue", path)
    run("add", "g", "--kind", "fuse", "--catalogue", other)
    text = run("merge", other, "--dry-run", "--catalogue", shop, status=1)
    assert text.splitlines()[0] == "1 only there, 0 the same, 1 in conflict"
    assert text.splitlines()[4].split() == ["f", "rated_current", "300", "A", "350", "A"]
    assert "1 in conflict" in run("merge", other, "--catalogue", shop, status=1)
    assert "there is no part 'g'" in run("show", "g", "--catalogue", shop, status=2)
    run("merge", other, "--take", "theirs=f", "--catalogue", shop)
    assert "350 A" in run("show", "f", "--catalogue", shop)
    assert run("merge", other, "--catalogue", shop) == "0 only there, 2 the same, 0 in conflict\n"


def test_answers_for_machines_keep_to_their_schemas(shop, jobs, tmp_path):
    path = tmp_path / "s.csv"
    path.write_text("id,kind,description,area\nlead,cable,4/0 AWG lead,50 mm²\n", encoding="utf-8")
    run("import", path, "--catalogue", shop)
    path.write_text(path.read_text().replace("lead,50", "lead,70"), encoding="utf-8")
    answers = {
        "import": run("import", path, "--dry-run", "--format", "json", "--catalogue", shop),
        "doubts": run("doubts", "--format", "json", "--catalogue", shop, status=1),
        "parts": run("find", "class t 300", "--format", "json"),
        "uses": run("where-used", "own", jobs, "--format", "json"),
    }
    for name, answer in answers.items():
        schema = schema_of({"parts": PartsFile, "uses": UsesAnswer, "doubts": DoubtsAnswer,
                            "import": ImportAnswer}[name], name)  # fmt: skip
        jsonschema.validate(json.loads(answer), schema)
    assert json.loads(answers["import"])["changed"] == [
        {"id": "lead", "fields": [{"field": "area", "before": "50 mm²", "after": "70 mm²"}]}
    ]
    (doubt,) = json.loads(answers["doubts"])["doubts"]
    assert (doubt["part"], doubt["path"], doubt["expected"]) == ("lead", "area", "107 mm²")
    found = json.loads(answers["parts"])["parts"]
    assert [part["id"] for part in found] == ["fuse-t-300", "fuse-t-300-dc"]
    assert found[1]["interrupt_ratings"] == [{"voltage": "125 V", "current": "20000 A"}]


@pytest.mark.parametrize(
    ("line", "offered"),
    [
        ("fusewright parts show fuse-t-30", "fuse-t-30 fuse-t-30-dc fuse-t-300 fuse-t-300-dc"),
        ("fusewright parts where-used bar-100x", "bar-100x10 bar-100x5"),
        ("fusewright sche", "schedule schema"),
    ],
)
def test_a_shell_completes_ids_of_parts(line, offered):
    words = line.split()
    asking = {
        **os.environ, "_FUSEWRIGHT_COMPLETE": "complete_bash", "COMP_WORDS": line,
        "COMP_CWORD": str(len(words) - 1),
    }  # fmt: skip
    asking.pop("FUSEWRIGHT_CATALOGUE", None)
    done = subprocess.run(RUN, env=asking, capture_output=True, text=True, check=False)
    assert done.stdout.split() == offered.split(), done.stderr


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish"])
def test_the_script_for_a_shell(shell):
    done = subprocess.run([*RUN, "completion", shell], capture_output=True, text=True, check=False)
    assert done.returncode == 0
    assert f"_FUSEWRIGHT_COMPLETE=complete_{shell}" in done.stdout
    wrong = [*RUN, "completion", "fisch"]
    done = subprocess.run(wrong, capture_output=True, text=True, check=False)
    assert (done.returncode, "did you mean 'fish'" in done.stderr) == (2, True)
