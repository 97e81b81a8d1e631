"""What stands on the page: everything that is handed over, once, each thing reachable."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from coordination.papers.sections import ALWAYS, SECTIONS, chosen_sections
from coordination.report.anchors import FINDING, anchor
from coordination.report.limits import cautions, not_checked

from .conftest import LAUNCH, SYSTEMS, Page, Told, findings, told

TENDER = SYSTEMS / "tender-planted.yaml"
#: All but the sheets that take long to draw.
QUICK = tuple(each for each in SECTIONS if each not in ("curves", "diagram"))


@pytest.fixture(scope="module")
def tender() -> Told:
    from .conftest import page_of

    return told(page_of(TENDER, QUICK))


def _heads(said: Told) -> list[str]:
    return [given["id"] for tag, given in said.elements if tag == "section" and "id" in given]


def test_the_verdict_and_its_basis_come_first(tender: Told) -> None:
    assert _heads(tender)[0] == "verdict"
    for part in ("fail Not every check passed.", "fixtures/systems/tender-planted.yaml"):
        assert part in tender.text
    # By hand from fixtures/systems/tender-planted.yaml: five conditions beside "normal".
    for condition in ("hauling", "shore", "one pack out", "emergency parallel"):
        assert f"{condition}, " in tender.text


def test_every_fail_stands_there_with_its_cure_and_reasoning(tender: Told) -> None:
    fails = [each for each in findings(TENDER).findings if each.verdict == "fail"]
    assert len(fails) == 41
    for finding in fails:
        assert anchor("verdict", f"{finding.rule} {finding.subject}") in tender.ids()
        assert finding.card.right in tender.text
    # The trade's own case A-1: 27.2 V / 2.7 mΩ = 10.07 kA and back-feed, a 5 kA rating at 32 V.
    assert "is 10.7 kA, more than the interrupt rating of 5.00 kA." in tender.text


def test_everything_of_the_system_is_in_a_table(tender: Told) -> None:
    system = findings(TENDER).system
    for name in (*system.sources, *system.equipment, *system.busbars):
        assert name in tender.text
    for element in system.elements():
        assert anchor(FINDING, element.name) in tender.ids() or element.kind == "joint"


def test_what_was_not_checked_and_the_cautions_are_whole(tender: Told) -> None:
    for line in (*not_checked(findings(TENDER)), *cautions(findings(TENDER))):
        assert line in tender.text
    assert not re.search(r"\bsafe\b", tender.text, re.IGNORECASE)


@pytest.fixture
def written(tmp_path: Path) -> Path:
    return tmp_path / "system.yaml"


def test_an_assumed_band_is_called_assumed(page: Page, written: Path) -> None:
    text = LAUNCH.read_text("utf-8")
    stated = "resistance: {min: 2.7 mΩ, max: 5.1 mΩ}"
    assert stated in text
    written.write_text(text.replace(stated, "resistance: 3.2 mΩ"), encoding="utf-8")
    said = told(page(written, ("basis",))).text
    assert "assumed band -15 % / +60 %" in said
    # 3.2 mΩ × 0.85 = 2.72 mΩ; × 1.60 = 5.12 mΩ
    assert "2.72 mΩ … 5.12 mΩ" in said


def test_a_waiver_is_told_with_its_reason(page: Page, written: Path) -> None:
    fail = next(each for each in findings(TENDER).findings if each.verdict == "fail")
    waiver = (
        f"waivers:\n  - {{rule: {fail.rule}, subject: {fail.subject}, reason: an old <b> boat, "
        "by: yard foreman, date: 2026-03-02}\n"
    )
    written.write_text(TENDER.read_text("utf-8") + waiver, encoding="utf-8")
    said = told(page(written, ("findings", "basis"))).text
    assert "an old <b> boat" in said
    assert "yard foreman" in said
    assert "2026-03-02" in said
    assert "waived" in said


def test_part_revisions_name_document_and_page(page: Page, written: Path) -> None:
    text = LAUNCH.read_text("utf-8")
    before = "fast-400: {kind: fuse,"
    assert before in text
    revised = f"{before} document: Sheet 12, page: table 3, reviewed: 2026-02-01, status: reviewed,"
    written.write_text(text.replace(before, revised), encoding="utf-8")
    said = told(page(written, ("basis",))).text
    assert "Sheet 12 table 3 2026-02-01 reviewed system file 1" in said


@pytest.mark.parametrize("names", [("labels",), ("points", "schedules"), ("basis",)])
def test_a_part_of_the_page_says_what_it_lacks(page: Page, names: tuple[str, ...]) -> None:
    said = told(page(LAUNCH, names))
    assert _heads(said) == [each for each in SECTIONS if each in (*names, *ALWAYS)]
    assert "Not on this page, because it was not asked for" in said.text
    linked = [given["href"] for tag, given in said.elements if tag == "a" and "href" in given]
    assert {link.removeprefix("#") for link in linked} <= set(said.ids())


def test_an_unknown_part_is_refused() -> None:
    with pytest.raises(KeyError):
        chosen_sections(["diagrams"])


def test_ids_are_given_once(tender: Told) -> None:
    assert len(tender.ids()) == len(set(tender.ids()))


def test_commissioning_has_boxes_and_expected_values(tender: Told) -> None:
    boxes = [given for tag, given in tender.elements if (tag, given.get("class")) == ("td", "box")]
    assert len(boxes) > 100
    # The file's own band of the pack: 25.6 V low, 27.2 V full.
    assert "at rest, nothing drawing or charging 25.6 V to 27.2 V" in tender.text


def test_no_label_is_printed_for_what_fails(page: Page) -> None:
    said = told(page(TENDER, ("labels",)))
    printed, _, withheld = said.text.partition("No label while these fail")
    assert "port fuse: 2 fail: interrupt-rating, selectivity" in withheld
    assert "port fuse Single-bolt" not in printed
    assert "LIVE with all switches OFF." in printed


def test_the_page_asks_for_nothing_and_runs_nothing(tender: Told) -> None:
    assert not {"script", "link", "iframe", "object", "embed", "base", "form"} & _tags(tender)
    for _, given in tender.elements:
        assert not [key for key in given if key.startswith("on")]
        assert not given.get("src", "").startswith(("http", "//"))
    metas = [given for tag, given in tender.elements if tag == "meta" and "http-equiv" in given]
    assert [given["http-equiv"] for given in metas] == ["Content-Security-Policy"]
    policy = [given["content"] for given in metas]
    assert policy == ["default-src 'none'; style-src 'unsafe-inline'; img-src data:"]


def _tags(said: Told) -> set[str]:
    return {tag for tag, _ in said.elements}


def test_the_same_inputs_give_the_same_page() -> None:
    from .conftest import page_of

    first = page_of(LAUNCH, ("findings", "points", "basis"))
    page_of.cache_clear()
    assert page_of(LAUNCH, ("findings", "points", "basis")) == first


def test_alike_lines_of_a_picture_are_one_and_dashes_and_fills_are_kept() -> None:
    """Three lines drawn alike, one dashed, one filled: what is seen is what was drawn."""
    from coordination.papers.svg import joined, usual

    looks = 'stroke="red" stroke-width="1.3" fill="none"'
    dashed = f'{looks} stroke-dasharray="2 1"'
    filled = 'stroke="red" stroke-width="1.3" fill="red"'
    shapes = [("M0 0L1 1", looks), ("M2 2L3 3", looks), ("M4 4L5 5", dashed),
              ("M6 6L7 7Z", filled), ("M8 8L9 9Z", filled)]  # fmt: skip
    drawn = "".join(f'<path d="{path}" {look}/>' for path, look in shapes)
    assert joined(drawn) == "".join([
        f'<path d="M0 0L1 1M2 2L3 3" {looks}/>', f'<path d="M4 4L5 5" {dashed}/>',
        f'<path d="M6 6L7 7Z" {filled}/>', f'<path d="M8 8L9 9Z" {filled}/>',
    ])  # fmt: skip
    root = usual(f'<svg class="x">{drawn}</svg>')
    assert root.startswith('<svg stroke-width="1.3" font-size="9.5" class="x">')
    assert root.count("stroke-width") == 1
