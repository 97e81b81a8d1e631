"""`fusewright rules`: the index, cards, the reference that documents link to, and a new pack."""

from __future__ import annotations

import tomllib
from datetime import date
from pathlib import Path

import pytest

from coordination.report.reference import rule_reference
from coordination.rules.host import PackHost

CHECKOUT = Path(__file__).parents[3]
BUILT_IN = sorted(
    tomllib.loads((CHECKOUT / "pyproject.toml").read_text("utf-8"))["project"]["entry-points"][
        "fusewright.packs"
    ]
)
REFERENCE = CHECKOUT / "plugins" / "RULES.md"


def test_the_reference_is_what_the_cards_say_now():
    packs = PackHost(today=date.max).load(BUILT_IN)
    assert packs.problems == ()
    assert REFERENCE.read_text("utf-8") == rule_reference(packs.packs), (
        "run: fusewright rules --markdown > plugins/RULES.md"
    )


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md"])
def test_the_documents_link_to_it(document):
    assert "(plugins/RULES.md)" in (CHECKOUT / document).read_text("utf-8")


def test_markdown_prints_the_reference(fusewright):
    printed = fusewright("rules", "fundamentals", "--markdown")
    assert printed.status == 0
    assert "## fundamentals: Fundamentals" in printed.out
    assert "- clause: NFPA 70:2023, 110.9 (from memory)" in printed.out


def test_the_index_has_clause_basis_and_edition(fusewright):
    printed = fusewright("rules", "fundamentals", "--width", "200")
    rows = [line for line in printed.out.splitlines() if "fundamentals/interrupt-rating" in line]
    assert "physics" in rows[0]
    assert "NFPA 70:2023, 110.9" in rows[0]
    assert "edition first edition, in force 2026-01-01" in printed.out


def test_an_edition_can_be_looked_at(fusewright):
    printed = fusewright("rules", "us_small_craft@2024")
    assert printed.out.startswith("us_small_craft 0.1.0, edition 2024, in force 2024-01-01")


def test_a_new_pack_is_never_written_over_another(fusewright, tmp_path):
    assert fusewright("rules", "new", "tern", tmp_path / "p").status == 0
    before = (tmp_path / "p/fusewright_tern/pack.py").read_text()
    (tmp_path / "p/README.md").unlink()
    again = fusewright("rules", "new", "tern", tmp_path / "p")
    assert again.status == 2
    assert "nothing was written" in again.err
    assert not (tmp_path / "p/README.md").exists()
    assert (tmp_path / "p/fusewright_tern/pack.py").read_text() == before


@pytest.mark.parametrize(
    "name", ["My-Pack", "2pack", "house", "fundamentals", "class", "a/b", ".."]
)
def test_a_name_that_cannot_be_is_refused(fusewright, tmp_path, name):
    result = fusewright("rules", "new", name, tmp_path / "p")
    assert result.status == 2
    assert "cannot be the name of a pack" in result.err
    assert not (tmp_path / "p").exists()


def test_too_many_names_are_a_mistake(fusewright):
    assert fusewright("rules", "one", "two").status == 2
    assert fusewright("rules", "new").status == 2


def test_why_a_pack_does_not_judge_is_explained(fusewright, tmp_path):
    system = (CHECKOUT / "fixtures/systems/small/p02-rating-at-14-v.yaml").read_text("utf-8")
    packs = "packs: [fundamentals, us_premises]\noptions: {us_premises: {use: boat}}\n"
    (tmp_path / "boat.yaml").write_text(system + packs, "utf-8")
    shown = fusewright("explain", tmp_path / "boat.yaml", "Rating at 14 V")
    assert shown.status == 0
    assert shown.out.startswith("NOTE us_premises/scope")
    assert "none of its" in shown.out
