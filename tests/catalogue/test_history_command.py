"""`fusewright parts log, diff, as-of, review, retire, remove` as a user meets them."""

from __future__ import annotations

import json

import jsonschema
import pytest
from typer.testing import CliRunner

from catalogue import changes
from coordination.cli.parts import app
from coordination.cli.schemas import _schema

FIELDS = ("rated_current=300 A", "interrupt_ratings=5 kA @ 32 V", "--kind", "fuse")


@pytest.fixture(autouse=True)
def bench(monkeypatch, tmp_path):
    """A catalogue by environment, and a clock that a test can set."""
    monkeypatch.setenv("FUSEWRIGHT_CATALOGUE", str(tmp_path / "shop.sqlite"))
    monkeypatch.setenv("FUSEWRIGHT_BY", "A. Maker")
    return monkeypatch


def at(bench, moment):
    bench.setattr(changes, "now", lambda: moment)


def run(*arguments, status=0):
    result = CliRunner().invoke(app, [str(argument) for argument in arguments])
    assert result.exit_code == status, (result.output, result.exception)
    return result.stdout if status < 2 else result.stderr


@pytest.fixture
def lived(bench):
    """A part with a past: entered in March, mended in April, reviewed in May, retired in June."""
    at(bench, "2026-03-02T10:00:00.000Z")
    run("add", "f", *FIELDS, "--why", "first sheet")
    at(bench, "2026-04-02T10:00:00.000Z")
    run("add", "f", "rated_current=250 A", "document=Sheet 9", "--kind", "fuse", "--replace")
    at(bench, "2026-05-02T10:00:00.000Z")
    run("review", "f", "--by", "B. Second")
    at(bench, "2026-06-02T10:00:00.000Z")
    run("add", "g", *FIELDS)
    run("retire", "f", "--successor", "g", "--why", "recalled")


@pytest.mark.usefixtures("lived")
def test_log_tells_who_when_why_and_what_changed():
    lines = run("log", "f").splitlines()
    heads = [line for line in lines if line.startswith("revision")]
    assert heads == [
        "revision 4  2026-06-02T10:00:00.000Z  A. Maker  retired",
        "revision 3  2026-05-02T10:00:00.000Z  B. Second  reviewed",
        "revision 2  2026-04-02T10:00:00.000Z  A. Maker  no status",
        "revision 1  2026-03-02T10:00:00.000Z  A. Maker  no status",
    ]
    for words in ("why: recalled", "why: first sheet", "rated_current: 300 A -> 250 A",
                  "successor: not stated -> g", "from: Sheet 9"):  # fmt: skip
        assert f"  {words}" in lines
    told = json.loads(run("log", "f", "--format", "json"))["revisions"]
    assert [each["revision"] for each in told] == [1, 2, 3, 4]
    assert told[0]["stated"]["interrupt_ratings"] == [{"current": 5000.0, "voltage": 32.0}]


@pytest.mark.usefixtures("lived")
def test_diff_compares_any_two_and_says_by_its_status_whether_they_differ():
    text = run("diff", "f", 1, 2, status=1)
    assert "  rated_current: 300 A -> 250 A\n" in text
    assert "  interrupt_ratings: 5 kA @ 32 V -> not stated\n" in text
    assert "status: reviewed -> retired" in run("diff", "f", status=1)
    assert "nothing -> revision 1" in run("diff", "g", status=1)
    assert "no field differs" in run("diff", "f", 2, 2)
    assert "has no revision 7; the last is 4" in run("diff", "f", 7, status=2)


@pytest.mark.usefixtures("lived")
@pytest.mark.parametrize(
    ("date", "revision", "current"),
    [
        ("2026-03-02", 1, 300.0),
        ("2026-03-02T09:59", None, None),
        ("2026-03-02T12:00+02:00", 1, 300.0),
        ("2026-03-02T11:59:59+02:00", None, None),
        ("2026-04-01", 1, 300.0),
        ("2026-04-02", 2, 250.0),
        ("2026-05-31", 3, 250.0),
        ("2030-01-01", 4, 250.0),
    ],
)
def test_as_of_gives_the_part_of_that_day(date, revision, current):
    answer = run("as-of", date, "f", "--format", "json", status=0 if revision else 1)
    found = json.loads(answer)["revisions"]
    assert [(each["revision"], each["stated"]["rated_current"]) for each in found] == (
        [(revision, current)] if revision else []
    )


@pytest.mark.usefixtures("lived")
def test_as_of_lists_all_parts_and_never_claims_what_it_cannot_know():
    assert [line.split()[:3] for line in run("as-of", "2026-06-02").splitlines()[1:]] == [
        ["f", "revision", "4"], ["g", "revision", "1"],
    ]  # fmt: skip
    assert "nothing is known of that time; its history begins 2026-03-02" in run(
        "as-of", "2025-01-01", status=1
    )
    assert "rated_current      300 A" in run("as-of", "2026-03-03", "f")
    assert "no such part" in run("as-of", "2026-06-02", "--kind", "cable", status=1)
    for wrong in ("yesterday", "2026-02-30", "", "2026"):
        assert "is no date" in run("as-of", wrong, status=2)


def test_a_second_name_reviews_who_entered_none_of_what_is_new():
    run("add", "f", *FIELDS)
    assert "a second name reviews them" in run("review", "f", status=2)
    assert "a second name" in run("review", "f", "--by", " a.MAKER", status=2)
    run("add", "f", "rated_current=250 A", "--kind", "fuse", "--replace", "--by", "C. Third")
    # The first still entered figures that nobody has looked at since.
    assert "a second name" in run("review", "f", status=2)
    assert run("review", "f", "--by", "B. Second") == "f is reviewed by B. Second\n"
    assert "reviewed_by    B. Second" in run("show", "f")
    assert "reviewed already, by B. Second" in run("review", "f", "--by", "D.", status=2)


def test_nobody_reviews_by_writing_so():
    text = run("add", "f", *FIELDS, "status=reviewed", status=2)
    assert "'f': status 'reviewed' wants a second name" in text
    run("add", "f", *FIELDS, "status=reviewed", "reviewed_by=a. maker", status=2)
    run("add", "f", *FIELDS, "status=reviewed", "reviewed_by=B. Second")
    # The review was of 300 A.
    changed = ("f", "rated_current=400 A", "status=reviewed", "reviewed_by=B. Second")
    assert "saw these figures" in run("add", *changed, "--kind", "fuse", "--replace", status=2)
    assert len(json.loads(run("log", "f", "--format", "json"))["revisions"]) == 1


def test_export_and_import_take_reviews_along(tmp_path):
    run("add", "f", *FIELDS)
    run("review", "f", "--by", "B. Second")
    first, second = tmp_path / "first.csv", tmp_path / "second.csv"
    run("export", first, "--kind", "fuse")
    other = ("--catalogue", tmp_path / "other.sqlite")
    assert "parts added" in run("import", first, *other)
    run("export", second, "--kind", "fuse", *other)
    assert first.read_bytes() == second.read_bytes()
    assert "0 parts added" in run("import", first, "--replace", *other)


def test_retired_parts_name_a_successor_that_is_there_and_leads_nowhere_back():
    for name in ("a", "b", "c"):
        run("add", name, *FIELDS)
    assert "--why" in run("retire", "a", "--successor", "b", status=2)
    reason = ("--why", "recalled")
    assert "'x', which is no part" in run("retire", "a", "--successor", "x", *reason, status=2)
    assert "not its own successor" in run("add", "a", "status=retired", "successor=a", "--kind",
                                          "fuse", "--replace", status=2)  # fmt: skip
    run("retire", "a", "--successor", "b", *reason)
    run("retire", "b", "--successor", "c", *reason)
    text = run("retire", "c", "--successor", "a", *reason, status=2)
    assert "successors go round: a -> b -> c -> a" in text
    assert "no status" in run("log", "c")
    run("retire", "c", "--successor", "fuse-t-300", *reason)
    assert CliRunner().invoke(app, ["retire", "a", "--why", "x"]).exit_code == 2
    assert run("retire", "a", "--without-successor", *reason) == "a is retired\n"
    assert "is retired" in run("review", "a", "--by", "B.", status=2)
    assert "'c' is the successor of 'b'" in run("remove", "c", *reason, status=2)


def test_what_is_removed_keeps_its_history_and_can_come_back():
    run("add", "f", *FIELDS)
    assert "--why" in run("remove", "f", status=2)
    assert run("remove", "f", "--why", "entered twice") == "f is removed; its history stays\n"
    assert "no part 'f'" in run("show", "f", status=2)
    assert "why: entered twice" in run("log", "f")
    run("add", "f", "rated_current=1 A", "--kind", "fuse")
    assert [line[:10] for line in run("log", "f").splitlines() if line.startswith("rev")] == [
        "revision 3", "revision 2", "revision 1",
    ]  # fmt: skip
    assert "nothing wrong was found" in run("verify")


@pytest.mark.parametrize("command", ["review", "remove", "retire"])
def test_parts_that_are_not_the_shops_own(command):
    run("add", "own-part", *FIELDS)
    assert "did you mean 'own-part'?" in run("log", "own-prat", status=2)
    more = ("--without-successor",) if command == "retire" else ()
    why = ("--why", "x")
    assert "is generic and stays" in run(command, "fuse-t-300", *more, *why, status=2)
    assert "did you mean 'own-part'?" in run(command, "own-prat", *more, *why, status=2)


def test_generic_parts_have_no_history(monkeypatch):
    monkeypatch.delenv("FUSEWRIGHT_CATALOGUE")
    assert "generic parts have no history" in run("log", "fuse-t-300", status=2)
    assert "read-only" in run("verify", status=2)


@pytest.mark.usefixtures("lived")
@pytest.mark.parametrize(
    "arguments", [("log", "f"), ("as-of", "2026-06-02"), ("as-of", "2030-01-01", "f")]
)
def test_the_json_is_as_its_schema_says(arguments):
    answer = json.loads(run(*arguments, "--format", "json"))
    jsonschema.validate(answer, _schema("history"))
    assert answer["answer"] == arguments[0]
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate({**answer, "revisions": [{}]}, _schema("history"))
