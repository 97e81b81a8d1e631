"""`fusewright parts` as a user meets it: output, errors, exit status."""

from __future__ import annotations

import pytest
from typer.testing import CliRunner

from coordination.cli.parts import app


@pytest.fixture(autouse=True)
def no_catalogue_by_environment(monkeypatch):
    monkeypatch.delenv("FUSEWRIGHT_CATALOGUE", raising=False)


def run(*arguments, status=0):
    result = CliRunner().invoke(app, [str(argument) for argument in arguments])
    assert result.exit_code == status, (result.output, result.exception)
    return result.stdout if status == 0 else result.stderr


@pytest.fixture
def shop(tmp_path):
    return tmp_path / "shop.sqlite"


def test_list_names_id_kind_status_and_origin():
    lines = run("list", "--kind", "busbar").splitlines()
    assert len(lines) == 23
    assert "bar-30x5    busbar  reviewed  generic  30 × 5 mm bare copper bar" in lines


def test_show_prints_every_field_as_written_with_document_status_and_origin():
    text = run("show", "fuse-t-300-dc")
    figures = ("rated_current      300 A", "20000 A @ 125 V", "405 A for 7200 s")
    for words in (*figures, "draft", "UL 248-15", "common practice", "generic part"):
        assert words in text


def test_show_suggests_a_near_miss():
    assert "did you mean 'fuse-t-300'?" in run("show", "fuse-t300", status=2)
    assert "no kind of part; did you mean 'fuse'?" in run("list", "--kind", "fuze", status=2)


def test_find():
    assert run("find", "blade", "7.5", "58").splitlines()[0].startswith("fuse-blade-c-7.5-58v ")
    result = CliRunner().invoke(app, ["find", "zzzzz", "qqqqq"])
    assert (result.exit_code, result.stdout) == (1, "no part found\n")


def test_add_by_fields_then_show_from_the_shop(shop):
    added = run(
        "add", "fuse-t-300", "rated_current=300 A", "interrupt_ratings=5 kA @ 32 V; 8 kA @ 14 V",
        "--kind", "fuse", "--catalogue", shop,
    )  # fmt: skip
    assert added == f"1 part added to {shop}\n"
    text = run("show", "fuse-t-300", "--catalogue", shop)
    assert "the shop's own catalogue" in text
    assert "it shadows a generic part" in text
    assert "5 kA @ 32 V\n" in text
    assert "8 kA @ 14 V\n" in text


def test_add_by_fields_tells_all_that_is_wrong(shop):
    text = run(
        "add", "x", "rated_current=300", "wdth=3 mm", "short_time=3 kA", "nonsense",
        "--kind", "busbar", "--catalogue", shop, status=2,
    )  # fmt: skip
    for expected in ("has no unit", "did you mean 'width'?", "wants current for time", "FIELD="):
        assert expected in text
    assert not shop.exists()


def test_add_a_file(shop, tmp_path):
    file = tmp_path / "parts.yaml"
    file.write_text(
        "parts:\n"
        "  pack-1: {kind: battery, nominal_voltage: 25.6 V, resistance: 3.2 mΩ}\n"
        "  feed: {kind: cable, awg: 4/0, insulation_temperature: 105 °C}\n",
        encoding="utf-8",
    )
    assert run("add", file, "--catalogue", shop) == f"2 parts added to {shop}\n"
    assert "3.2 mΩ (assumed band -15 % / +60 %)" in run("show", "pack-1", "--catalogue", shop)
    assert "already in the catalogue" in run("add", file, "--catalogue", shop, status=2)
    run("add", file, "--replace", "--catalogue", shop)


def test_a_file_with_errors_gives_each_with_its_place(shop, tmp_path):
    file = tmp_path / "parts.yaml"
    file.write_text(
        "parts:\n  a: {kind: fuse, rated_current: 3}\n  b: {kind: fuze}\nsources: {}\n",
        encoding="utf-8",
    )
    text = run("add", file, "--catalogue", shop, status=2)
    assert f"{file}:2:34" in text
    assert f"{file}:3:" in text
    assert f"{file}:4:1" in text
    assert not shop.exists()


def test_the_generic_parts_are_read_only():
    text = run("add", "x", "rated_current=3 A", "--kind", "fuse", status=2)
    assert "the generic parts are read-only" in text
    assert "--catalogue" in text


def test_export_import_export_is_identical(shop, tmp_path):
    first, second = tmp_path / "first.csv", tmp_path / "second.csv"
    run("export", first, "--kind", "cable")
    assert run("import", first, "--catalogue", shop).startswith(f"222 parts added to {shop}\n")
    run("export", second, "--kind", "cable", "--catalogue", shop)
    assert first.read_bytes() == second.read_bytes()


def test_import_gives_row_and_column_of_every_error(shop, tmp_path):
    sheet = tmp_path / "parts.csv"
    sheet.write_text("id,kind,rated_current\na,fuse,300\nb,fuze,1 A\n", encoding="utf-8")
    text = run("import", sheet, "--catalogue", shop, status=2)
    assert f"{sheet}:2: column C (rated_current): '300' has no unit" in text
    assert f"{sheet}:3: column B (kind): 'fuze' is no kind of part; did you mean 'fuse'?" in text
    assert not shop.exists()


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["list", "--catalogue", "/no/such/file"], "there is no catalogue file"),
        (["import", "/no/such/file.csv", "--catalogue", "/tmp/x"], "No such file"),
        (["export", "/no/such/folder/x.csv"], "there is no such folder"),
        (["add", "x", "--kind", "fuse", "--catalogue", "/no/such/x.sqlite"], "cannot be written"),
    ],
)  # fmt: skip
def test_files_that_are_not_there(arguments, says):
    assert says in run(*arguments, status=2)


def test_the_kind_may_be_written_as_a_field(shop):
    run("add", "mine", "kind=fuse", "rated_current=30 A", "--catalogue", shop)
    assert "rated_current  30 A" in run("show", "mine", "--catalogue", shop)
    text = run("add", "other", "rated_current=30 A", "--catalogue", shop, status=2)
    assert "other: its kind is missing; write kind=fuse" in text
    text = run("add", "other", "kind=fuze", "rated_current=30 A", "--catalogue", shop, status=2)
    assert "'fuze' is no kind of part" in text
