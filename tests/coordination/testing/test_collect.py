"""Case files are read strictly: a case that says nothing, or says it wrongly, is an error."""

from __future__ import annotations

from pathlib import Path

import pytest

from coordination.testing import CaseError, collect_cases

GOOD = """
rule: some-rule
system: s.yaml
cases:
  it passes:
    set: {a.b: 1 A}
    remove: [c]
    expect: {subject: x, verdict: pass, found: 1 A, missing: one thing}
    others: pass
    edge: inside
    origin: by hand
"""


@pytest.fixture
def folder(tmp_path: Path):
    cases = tmp_path / "fusewright_mine" / "cases"
    (cases / "systems").mkdir(parents=True)
    (cases / "systems" / "s.yaml").write_text("system: s\n")

    def write(text: str) -> Path:
        (cases / "some-rule.yaml").write_text(text)
        return cases

    return write


def test_a_case_is_read_whole(folder):
    (case,) = collect_cases(folder(GOOD))
    assert (case.rule, case.name, case.edge) == ("mine/some-rule", "it passes", "inside")
    assert case.changes == {"a.b": "1 A"}
    assert case.removals == ("c",)
    assert case.others == ("pass",)
    assert case.expected[0].missing == ("one thing",)
    assert str(case) == "some-rule: it passes"


def test_the_pack_can_be_named(folder):
    assert collect_cases(folder(GOOD), pack="yours")[0].rule == "yours/some-rule"


@pytest.mark.parametrize(
    "change",
    [
        ("rule: some-rule", "rule: other-rule"),
        ("    origin: by hand\n", ""),
        ("system: s.yaml", "system: none.yaml"),
        ("system: s.yaml\n", ""),
        ("edge: inside", "edge: near"),
        ("others: pass", "rest: pass"),
        ("verdict: pass", "verdicts: pass"),
        ("subject: x, ", ""),
        ("expect: {", "expect: nothing # {"),
    ],
)
def test_a_wrong_case_is_an_error(folder, change):
    assert change[0] in GOOD
    with pytest.raises(CaseError):
        collect_cases(folder(GOOD.replace(*change)))
