"""The text for people: order, content, width, signs, colour."""

from __future__ import annotations

import re
from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from coordination.report.colour import coloured, paint_for, plain
from coordination.report.text import text_report
from coordination.report.view import View
from coordination.rules.problem import RunProblem
from coordination.trace import DEFINITION, given


def report(findings: Any, **view: Any) -> str:
    return text_report(findings, View(**view))


def test_the_verdict_comes_first_with_every_count(every_verdict: Any) -> None:
    first = report(every_verdict).splitlines()[0]
    assert first == "FAIL: 1 fail, 1 unproven, 1 waived, 1 note, 1 pass"


def test_the_head_names_file_packs_and_editions(every_verdict: Any) -> None:
    head = report(every_verdict).split("\n\n")[0]
    assert "tender.yaml" in head
    assert "fundamentals 0.1.0, edition 2026, in force 2026-01-01 (1 rule)" in head


def test_what_needs_a_hand_stands_before_what_does_not(every_verdict: Any) -> None:
    text = report(every_verdict)
    counted = [f"{title} (1)" for title in ("Fails", "Unproven", "Waived", "Notes", "Passes")]
    places = [text.index(f"\n{title}\n") for title in (*counted, "Not checked", "Cautions")]
    assert places == sorted(places)


def test_a_fail_shows_both_sides_margin_steps_source_severity_and_cure(make: Any) -> None:
    lines = report(make.findings(make.fail())).splitlines()
    for line in (
        "FAIL fundamentals/interrupt-rating  The device can break the fault current",
        "  tender.yaml:31  port feed/1 (fuse fuse-sb-200, condition normal)",
        "  found 8.50 kA, required ≤ 5.00 kA, margin 0.588",
        "    fault current I             8.50 kA  E / R = 27.2 V / 3.20 mΩ",
        "    interrupt rating at 32 V    5.00 kA  <- part data, fuse-sb-200",
        "  source    UL 248-1:2011, clause 8 (from memory)",
        "  severity  fire",
        "  Do: Fit a device rated for the fault current at this voltage.",
    ):
        assert line in lines


def test_an_unproven_finding_says_what_is_missing_and_shows_what_is_known(make: Any) -> None:
    text = report(make.findings(make.unproven()))
    assert "this is not known: fuse-x: interrupt_ratings" in text
    assert "E / R = 27.2 V / 3.20 mΩ" in text
    assert "Do: state fuse-x: interrupt_ratings at >= 28.8 V (in the part or in the" in text
    assert text.startswith("UNPROVEN: 0 fail, 1 unproven")
    assert "nothing failed, but not everything could be shown" in text


def test_what_all_unproven_findings_want_is_told_once_at_their_head(make: Any) -> None:
    wants = [("fuse-x: curve",), ("pack: emf", "fuse-x: curve"), ("pack: not connected to any",)]
    several = [make.unproven(subject=f"aux/{n}", missing=each) for n, each in enumerate(wants)]
    text = report(make.findings(*several))
    head = text[text.index("To prove them, state") : text.index("UNPROVEN fundamentals")]
    rows = [line.split() for line in head.splitlines()[1:3]]
    assert rows == [["fuse-x", "curve"], ["pack", "emf"]]
    assert "To prove them" not in report(make.findings(several[0]))


def test_a_waived_fail_stays_visible_with_reason_and_who(make: Any) -> None:
    text = " ".join(report(make.findings(make.waived())).split())
    assert "is 8.50 kA, more than the interrupt rating" in text
    assert "Accepted by yard foreman on 2026-03-02: replaced next month." in text


def test_passes_are_one_table_and_in_full_on_demand(make: Any) -> None:
    findings = make.findings(make.passed(), make.passed("main feed/2"))
    table = report(findings)
    row = next(line for line in table.splitlines() if "main feed/2" in line)
    assert row.split()[1:] == ["main", "feed/2", "8.50", "kA", "≤", "20.0", "kA", "2.35"]
    assert "PASS fundamentals" not in table
    assert report(findings, full=True).count("PASS fundamentals/interrupt-rating") == 2


def test_many_passes_are_told_a_rule_at_a_time_with_the_closest(make: Any) -> None:
    passes = [make.passed(f"feed/{number}") for number in range(99)]
    closest = make.fail("pass", subject="tight/1", required=make.rating(8600), margin=8600 / 8500)
    text = report(make.findings(*passes, closest))
    assert re.search(r"fundamentals/interrupt-rating +100 +1\.01 +tight/1", text)


def test_only_narrows_what_is_shown_and_leaves_the_counts(every_verdict: Any) -> None:
    text = report(every_verdict, only=("note",))
    assert "NOTE fundamentals" in text
    assert "FAIL fundamentals" not in text
    assert "1 fail, 1 unproven" in text.splitlines()[0]
    assert "only note" in text


def test_a_restricted_run_says_so(every_verdict: Any) -> None:
    words = "only condition 'x' was run"
    assert words in report(every_verdict, restricted=(words,))


def test_problems_stand_before_the_findings_and_remarks_apart(make: Any) -> None:
    problems = (
        RunProblem(kind="pack", about="us", what="no pack 'us' is installed", near_miss="usa"),
        RunProblem(kind="waiver", what="this waiver had no effect", line=70, incomplete=False),
    )
    text = report(make.findings(make.fail(), problems=problems))
    assert "no pack 'us' is installed; did you mean 'usa'?" in text
    assert text.index("no pack 'us'") < text.index("Remarks") < text.index("Fails (1)")
    assert "tender.yaml:70: this waiver had no effect" in text


def test_a_run_without_findings_claims_nothing(make: Any) -> None:
    assert report(make.findings()).startswith(
        "UNPROVEN: 0 fail, 0 unproven, 0 waived, 0 note, 0 pass\n  nothing was checked"
    )


def test_what_is_not_checked_comes_from_the_packs_and_the_standing_list(make: Any) -> None:
    text = report(make.findings(make.passed()))
    part = text[text.index("\nNot checked\n") : text.index("\nCautions\n")]
    for phrase in ("surges", "AC side", "crimps", "corrosion", "thermal runaway", "ventilation"):
        assert phrase in part


def test_a_pack_does_not_repeat_what_none_can_check(make: Any) -> None:
    findings = make.findings(make.passed())
    card = replace(findings.packs[0].card, not_covered=("the AC side", "surges"))
    findings = replace(findings, packs=(replace(findings.packs[0], card=card),))
    part = report(findings).partition("\nNot checked\n")[2].partition("\nCautions\n")[0]
    assert part.count("the AC side") == 1
    assert "surges" in part


def test_a_link_that_no_condition_closes_is_told_as_not_checked(make: Any) -> None:
    link = SimpleNamespace(name="parallel switch", normally_open=True)
    for closed, told in (((), True), (("parallel switch",), False)):
        system = SimpleNamespace(
            name="t", file="t.yaml", sources={}, elements=lambda: [link],
            conditions={"normal": SimpleNamespace(close=closed)},
        )
        findings = replace(make.findings(make.passed()), system=system, studies={"normal": None})
        text = report(findings)
        assert ("anything with parallel switch closed" in text) is told


def test_a_battery_with_one_resistance_is_told_among_the_cautions(make: Any) -> None:
    written = {"resistance": "3.2 mΩ", "resistance.assumed": "-15 % / +60 %"}
    pack = SimpleNamespace(part=SimpleNamespace(id="pack-230", written=written))
    system = SimpleNamespace(
        name="t", file="t.yaml", sources={"pack": pack}, elements=lambda: [], conditions={}
    )
    text = report(replace(make.findings(make.passed()), system=system))
    told = " ".join(text.partition("\nCautions\n")[2].split())
    assert "pack-230 states one resistance (3.2 mΩ): an assumed band of -15 % / +60 %" in told


@pytest.mark.parametrize("width", [40, 60, 80, 120])
def test_no_line_is_wider_than_asked(every_verdict: Any, make: Any, width: int) -> None:
    long = make.fail(subject="the long feed of the port side battery locker, after the isolator/12")
    findings = make.findings(*every_verdict.findings, long)
    assert max(map(len, report(findings, width=width, full=True).splitlines())) <= width


def test_names_cannot_move_the_cursor_or_turn_the_text(make: Any) -> None:
    nasty = make.fail(subject="a\x1b[2Jb\u202ec\u200bd\x07", part="p\x9b1m", condition="c\rd")
    system = make.system(name="s\x1b]0;x\x07", file="f\x1b[1m.yaml")
    text = report(make.findings(nasty, system=system))
    assert all(sign.isprintable() or sign == "\n" for sign in text)
    assert r"a\x1b[2Jb\u202ec\u200bd\x07" in text


def test_two_sides_that_differ_never_look_equal(make: Any) -> None:
    near = make.fail(found=make.rating(5000.4), required=make.rating(5000.0), margin=5000 / 5000.4)
    lines = report(make.findings(near)).splitlines()
    sides = next(line for line in lines if line.startswith("  found"))
    assert sides.startswith("  found 5.00040 kA, required ≤ 5.00000 kA, margin 0.9999")


def test_long_derivations_are_cut_and_point_to_explain(make: Any) -> None:
    value = make.current()
    for number in range(30):
        value = type(value)(f"step {number}", "I", 8500.0, "A", "I", (value,))
    text = report(make.findings(make.fail(found=value)))
    assert "step 29" in text
    assert "step 3 I" not in text
    assert "Every step: fusewright explain tender.yaml SUBJECT RULE" in text
    assert "    (after earlier steps)" in text


def test_colour_adds_codes_and_changes_no_word(every_verdict: Any) -> None:
    bright = text_report(every_verdict, View(), coloured)
    assert "\x1b[" in bright
    assert re.sub(r"\x1b\[[0-9;]*m", "", bright) == text_report(every_verdict, View(), plain)


@pytest.mark.parametrize(
    ("terminal", "environment", "wanted"),
    [
        (True, {}, True),
        (False, {}, False),
        (True, {"NO_COLOR": "1"}, False),
        (True, {"NO_COLOR": ""}, True),
        (True, {"TERM": "dumb"}, False),
    ],
)
def test_colour_is_for_terminals_that_want_it(
    terminal: bool, environment: Any, wanted: bool
) -> None:
    assert (paint_for(terminal, environment) is coloured) is wanted


def test_the_word_safe_is_never_printed(every_verdict: Any) -> None:
    assert not re.search(r"\bsafe", report(every_verdict, full=True), re.IGNORECASE)


def test_the_gravest_fails_come_first(make: Any) -> None:
    fails = [
        make.fail(subject="a", severity="paperwork"),
        make.fail(subject="b", severity="outage"),
        make.fail(subject="c", severity="fire"),
    ]
    text = report(make.findings(*fails))
    places = [text.index(f"  severity  {word}") for word in ("fire", "outage", "paperwork")]
    assert places == sorted(places)


def test_both_sides_are_shown_in_the_unit_that_was_written(make: Any) -> None:
    drop = given("relative voltage drop", "u", 0.0432, "", DEFINITION)
    limit = given("allowed drop", "u_max", 0.03, "", DEFINITION, "3 %")
    text = report(make.findings(make.fail(found=drop, required=limit, margin=0.03 / 0.0432)))
    assert "found 4.32 %, required ≤ 3 %, margin 0.694" in text


def test_a_number_keeps_its_unit_on_its_line(make: Any) -> None:
    lines = report(make.findings(make.fail()), width=40).splitlines()
    assert not any(line.rstrip().endswith((" 8.50", " 5.00", " 27.2", " 3.20")) for line in lines)
