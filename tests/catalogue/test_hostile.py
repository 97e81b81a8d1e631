"""Whatever a text holds, it is kept to the sign, and shown and exported without harm."""

from __future__ import annotations

import csv
import io
import json

import pytest
from typer.testing import CliRunner

from catalogue.parts import Fuse
from catalogue.revisions import digest_of
from catalogue.shop import add_parts
from catalogue.store import Store, open_catalogue
from coordination.cli.parts import app

TEXTS = {
    "formula": "=HYPERLINK(\"http://x\";\"see\")",
    "command": "@SUM(1+1)*cmd|' /C calc'!A0",
    "apostrophe": "'=1",
    "tab": "\t=1",
    "return": "a\r=1",
    "escape": "\x1b]0;owned\x07\x1b[2J\x1b[31mred",
    "bidi": "300 A \u202e A 03\u202c \u2066x\u2069",
    "invisible": "a\u200b\ufeff\u00adb",
    "lines": "one\ntwo\r\nthree\u2028four",
    "html": "<script>alert(1)</script>&amp;<b onclick='x'>",
    "quotes": "\"';--\"\" \\ '' {\"a\":1}",
    "delete": "\x7f\x9b31m\x01\x02",
    "long": "0123456789abcdef" * 65536,
}  # fmt: skip


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    path = str(tmp_path_factory.mktemp("hostile") / "shop.sqlite")
    parts = [Fuse(id=f"h-{name}", kind="fuse", description=text, notes=text, document=text,
                  family=text) for name, text in TEXTS.items()]  # fmt: skip
    add_parts(path, parts, by="<b>\x1b[31mA. Maker", why=TEXTS["escape"])
    return path


def run(*arguments):
    result = CliRunner().invoke(app, [str(argument) for argument in arguments])
    assert result.exit_code in (0, 1), (result.output[:500], result.exception)
    return result.stdout


@pytest.mark.parametrize("name", TEXTS)
def test_texts_are_kept_to_the_sign(shop, name):
    with open_catalogue(shop) as catalogue:
        part = catalogue.get(f"h-{name}")
    assert {part.description, part.notes, part.document, part.family} == {TEXTS[name]}
    with Store(shop, "shop") as store:
        (body,) = store.ask("SELECT whole_part_json FROM history WHERE id = ?", part.id)[0]
        assert store.revision_of(part.id) == (1, digest_of(part))
    assert json.loads(body)["notes"] == TEXTS[name]


@pytest.mark.parametrize(
    "arguments",
    [("list", "--kind", "fuse"), ("find", "h"), ("as-of", "2099-01-01"), ("verify",),
     *((word, f"h-{name}") for word in ("show", "log", "diff") for name in TEXTS),
     *(("as-of", "2099-01-01", f"h-{name}") for name in TEXTS)],
)  # fmt: skip
def test_what_is_shown_moves_no_cursor_and_has_an_end(shop, arguments):
    text = run(*arguments, "--catalogue", shop)
    assert all(line.isprintable() for line in text.split("\n"))
    assert len(text) < 600_000
    assert max(map(len, text.split("\n"))) < 25_000


def test_json_has_every_text_in_signs_that_a_terminal_takes(shop):
    text = run("as-of", "2099-01-01", "--format", "json", "--catalogue", shop)
    assert text.isascii()
    assert all(line.isprintable() for line in text.split("\n"))
    stated = {each["part"]: each["stated"]["notes"] for each in json.loads(text)["revisions"]}
    assert stated == {f"h-{name}": kept for name, kept in TEXTS.items()}


def test_a_sheet_holds_no_formula_and_comes_back_the_same(shop, tmp_path):
    sheet, other = tmp_path / "all.csv", tmp_path / "other.sqlite"
    run("export", sheet, "--kind", "fuse", "--catalogue", shop)
    csv.field_size_limit(10_000_000)
    rows = list(csv.reader(io.StringIO(sheet.read_bytes().decode("utf-8"), newline="")))
    assert len(rows) > len(TEXTS)
    assert not [cell[:20] for row in rows for cell in row
                if cell.startswith(("=", "+", "-", "@", "\t", "\r"))]  # fmt: skip
    run("import", sheet, "--catalogue", other, "--by", "x")
    with Store(str(other), "shop") as theirs, Store(shop, "shop") as mine:
        for name in TEXTS:
            part_id = f"h-{name}"
            assert theirs.revision_of(part_id)[1] == mine.revision_of(part_id)[1]
