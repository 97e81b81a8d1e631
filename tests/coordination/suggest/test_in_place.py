"""The file is changed in place: nothing but what a change is about becomes another."""

from __future__ import annotations

import difflib
from pathlib import Path

import pytest

from coordination.errors import BadInput
from coordination.suggest.applying import apply_text
from coordination.suggest.document import CannotEdit, Document, written
from tests.coordination.suggest.conftest import Kit, cable, changes_of, fuse

C10, C35 = cable(10, 6.0), cable(35, 9.9)
#: The line of the fuse in `one`.
FUSED = "      - {fuse: t-100, name: 'main fuse', distance: 100 mm}   # on the post\n"
WEAK = fuse(100, "5 kA", 32, "sb-100")


def _changed_lines(before: str, after: str) -> list[str]:
    lines = difflib.ndiff(before.splitlines(keepends=True), after.splitlines(keepends=True))
    return [line for line in lines if line[0] in "+-"]


def test_comments_order_and_quotes_stay(kit: Kit) -> None:
    path = kit.one("t-100", "cable-10", 122, [fuse(100), fuse(125), C10, C35])
    cure = kit.ask(path, "main fuse").cures[0]
    assert _changed_lines(path.read_text("utf-8"), cure.text) == [
        "-       - {fuse: t-100, name: 'main fuse', distance: 100 mm}   # on the post\n",
        "+       - {fuse: t-125, name: 'main fuse', distance: 100 mm}   # on the post\n",
        '-       - cable: "cable-10"      # red and black\n',
        '+       - cable: "cable-35"      # red and black\n',
    ]


@pytest.mark.parametrize("newline", ["\r\n", "\n"])
@pytest.mark.parametrize("mark", [b"", b"\xef\xbb\xbf"])
def test_line_ends_and_byte_order_marks_stay(kit: Kit, newline: str, mark: bytes) -> None:
    text = kit.one("t-100", "cable-35", 85, [fuse(100), C35]).read_text("utf-8")
    bare = text.replace(FUSED, "")
    path = kit.folder / "odd.yaml"
    path.write_bytes(mark + bare.replace("\n", newline).encode())
    answer = kit.ask(path, "run")
    data = answer.document.bytes_of(answer.cures[0].text)
    line = "      - {fuse: t-100, name: feed fuse, distance: 120 mm}"
    assert data.startswith(mark)
    assert f"{newline}{line}{newline}".encode() in data
    assert data.count(b"\r\n") == (data.count(b"\n") if newline == "\r\n" else 0)
    assert data.replace(f"{line}{newline}".encode(), b"") == path.read_bytes()


def test_a_comment_above_a_part_stays_above_it(kit: Kit) -> None:
    text = kit.one("t-100", "cable-35", 85, [fuse(100), C35]).read_text("utf-8")
    bare = text.replace(FUSED, "")
    cure = kit.ask(kit.write(bare), "run").cures[0]
    assert (
        "    parts:\n      - {fuse: t-100, name: feed fuse, distance: 120 mm}\n"
        "      # Between post and cable.\n      - cable:"
    ) in cure.text


HOSTILE = "it's: {a} #1, \"x\" \\ ü"


def test_names_that_yaml_or_a_terminal_would_read_are_quoted(kit: Kit) -> None:
    """A circuit of a hostile name lends it to the fuse that is added."""
    text = kit.one("t-100", "cable-35", 85, [fuse(100, name="t: {1}'s"), C35]).read_text("utf-8")
    bare = text.replace(FUSED, "")
    quoted = "'" + HOSTILE.replace("'", "''") + "'"
    path = kit.write(bare.replace("  feed:", f"  {quoted}:").replace("t: {1}'s:", '"t: {1}\'s":'))
    answer = kit.ask(path, "run")
    assert answer.cures[0].changes[0].name == f"{HOSTILE} fuse"
    assert kit.verdicts(answer.cures[0].text)["source-protection", "run"] == "pass"


def test_anchors_are_refused_before_anything_is_looked_for(kit: Kit) -> None:
    text = kit.one("t-100", "cable-35", 85, [fuse(100), C35]).read_text("utf-8")
    path = kit.write(text.replace("{fuse: t-100", "&f {fuse: t-100"))
    with pytest.raises(BadInput) as refused:
        kit.ask(path)
    assert "anchor" in refused.value.problems[0].what


def test_numbers_that_are_used_elsewhere_are_not_moved(kit: Kit) -> None:
    """`feed/1` has a waiver: a fuse before it would make that speak of another part."""
    text = kit.one("t-100", "cable-35", 85, [fuse(100), C35]).read_text("utf-8")
    bare = text.replace(FUSED, "")
    bare = bare.replace("        name: run\n", "")
    waiver = (
        'waivers: [{rule: fundamentals/voltage-drop, subject: feed/1, reason: "x", by: y, '
        "date: 2026-01-01}]\nparts:\n"
    )
    assert kit.ask(kit.write(bare), "feed/1").cures
    answer = kit.ask(kit.write(bare.replace("\nparts:\n  ", f"\n{waiver}  ")), "feed/1")
    added = [each for cure in answer.cures for each in cure.changes if each.sort == "device"]
    assert all(each.index > 0 for each in added)


def test_an_id_over_several_lines_is_left_alone(kit: Kit) -> None:
    text = kit.one("sb-100", "cable-35", 85, [WEAK, fuse(110), C35]).read_text("utf-8")
    folded = text.replace("{fuse: sb-100, name: 'main fuse', distance: 100 mm}   # on the post",
                          "fuse: >-\n          sb-100\n        name: main fuse\n"
                          "        distance: 100 mm")  # fmt: skip
    answer = kit.ask(kit.write(folded), "main fuse")
    assert not answer.cures
    assert "main fuse" in answer.refused


def test_applying_twice_changes_nothing(kit: Kit) -> None:
    path = kit.one("sb-100", "cable-35", 85, [WEAK, fuse(110), C35])
    path.chmod(0o640)
    answer = kit.ask(path, "main fuse")
    apply_text(str(path), answer.document, answer.cures[0].text)
    once = path.read_bytes()
    assert once.decode() == answer.cures[0].text
    assert path.stat().st_mode & 0o777 == 0o640
    again = kit.ask(path, "main fuse")
    assert not again.targets
    assert not changes_of(again)
    assert path.read_bytes() == once
    assert [each.name for each in kit.folder.iterdir()] == [path.name]


def test_a_file_that_was_changed_meanwhile_is_not_overwritten(kit: Kit) -> None:
    path = kit.one("sb-100", "cable-35", 85, [WEAK, fuse(110), C35])
    answer = kit.ask(path, "main fuse")
    path.write_text("somebody else's", encoding="utf-8")
    with pytest.raises(BadInput, match="1 problem") as refused:
        apply_text(str(path), answer.document, answer.cures[0].text)
    assert "changed while" in refused.value.problems[0].what
    assert path.read_text("utf-8") == "somebody else's"
    assert [each.name for each in kit.folder.iterdir()] == [path.name]


def test_a_read_only_file_is_not_replaced(kit: Kit) -> None:
    path = kit.one("sb-100", "cable-35", 85, [WEAK, fuse(110), C35])
    answer = kit.ask(path, "main fuse")
    before = path.read_bytes()
    path.chmod(0o444)
    with pytest.raises(BadInput) as refused:
        apply_text(str(path), answer.document, answer.cures[0].text)
    assert "read-only" in refused.value.problems[0].what
    assert path.read_bytes() == before


def test_a_link_stays_a_link(kit: Kit, tmp_path: Path) -> None:
    path = kit.one("sb-100", "cable-35", 85, [WEAK, fuse(110), C35])
    link = tmp_path / "link.yaml"
    link.symlink_to(path)
    answer = kit.ask(link, "main fuse")
    apply_text(str(link), answer.document, answer.cures[0].text)
    assert link.is_symlink()
    assert "t-110" in path.read_text("utf-8")


@pytest.mark.parametrize(
    ("text", "style", "expected"),
    [
        ("fuse-4/0", None, "fuse-4/0"), ("null", None, "'null'"), ("a: b", None, "'a: b'"),
        ("x #y", None, "'x #y'"), ("a, b", None, "'a, b'"), ("-x", None, "'-x'"),
        ("it's", "'", "'it''s'"), ('a"b\\', '"', '"a\\"b\\\\"'), ("x ", None, "'x '"),
    ],
)  # fmt: skip
def test_texts_are_quoted_where_they_must_be(text: str, style: str | None, expected: str) -> None:
    assert written(text, style) == expected
    import yaml

    assert yaml.load(f"{{a: {expected}}}", Loader=yaml.BaseLoader) == {"a": text}


def test_what_is_not_there_cannot_be_found() -> None:
    with pytest.raises(CannotEdit):
        Document(b"circuits: {}", "x").find("circuits", "feed", "parts", 0)
