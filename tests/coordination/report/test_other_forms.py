"""Markdown, trees, the fault table, cards and input errors."""

from __future__ import annotations

from typing import Any

import pytest

from coordination.errors import Problem
from coordination.report.answer import answer
from coordination.report.cards import pack_card, rule_card, rule_index
from coordination.report.faults import faults_report
from coordination.report.input_errors import input_errors
from coordination.report.markdown import markdown_report
from coordination.report.sentence import because
from coordination.report.tree import tree_report
from coordination.report.view import View
from coordination.report.wording import clean, source_words
from coordination.trace import DEFINITION, Derived, Source, given


def test_markdown_says_what_the_text_says(every_verdict: Any) -> None:
    text = markdown_report(every_verdict, View())
    assert text.startswith(
        "# FAIL: 1 fail, 1 unproven, 1 waived, 1 note, 1 pass\n\nnot every check passed.\n"
    )
    assert "| 8.50 kA | ≤ 5.00 kA  |" in text
    assert "| E / R = 27.2 V / 3.20 mΩ |" in text
    assert "- Do: Fit a device rated" in text
    assert "## Not checked" in text


def test_markdown_and_html_in_a_name_stay_text(make: Any) -> None:
    nasty = make.fail(subject="a|b <script>`x` *y*", reason="[l](u)", **NO_SIDES)
    text = markdown_report(make.findings(nasty), View())
    assert "<script>" not in text
    assert r"a\|b &lt;script&gt;\`x\` \*y\*" in text
    assert r"\[l\](u)" in text


def test_every_table_row_has_as_many_cells_as_its_head(make: Any) -> None:
    text = markdown_report(make.findings(make.passed("a|b"), make.fail(subject="c|d")), View())
    rows = [line for line in text.splitlines() if line.startswith("|")]
    widths = {line.replace("\\|", "").count("|") for line in rows}
    assert rows
    assert widths <= {4, 5, 6}
    assert r"a\|b" in text


def test_a_tree_puts_every_input_under_what_it_led_to(make: Any) -> None:
    lines = tree_report([make.passed()], "tender.yaml", 100).splitlines()
    root = lines.index("    fault current I = E / R = 27.2 V / 3.20 mΩ = 8.50 kA")
    assert lines[root + 1] == "    | emf E = 27.2 V  <- part data, pack-230: emf"
    assert lines[root + 2] == "    | resistance R = 3.20 mΩ  <- part data, pack-230: resistance"
    assert lines[0].startswith("PASS fundamentals/interrupt-rating")
    assert any(line.startswith("  why: A fuse that cannot break") for line in lines)


def test_a_number_used_twice_is_derived_once(make: Any) -> None:
    current = make.current()
    twice = Derived("sum", "S", 17000.0, "A", "I + I", (current, current))
    text = tree_report([make.fail(found=twice)], "f", 100)
    assert text.count("= E / R =") == 1
    assert "| fault current I = 8.50 kA  (derived above)" in text


def test_a_very_deep_derivation_is_printed(make: Any) -> None:
    value: Derived = make.current()
    for number in range(5000):
        value = Derived(f"step {number}", "I", 8500.0, "A", "I", (value,))
    lines = tree_report([make.fail(found=value)], "f", 80).splitlines()
    assert sum("| step " in line for line in lines) == 4999
    assert max(map(len, lines)) <= 80


def test_an_unknown_side_says_what_it_wants(make: Any) -> None:
    text = " ".join(tree_report([make.unproven()], "f", 80).split())
    assert "interrupt rating: unknown, for want of fuse-x: interrupt_ratings at >= 28.8 V" in text


def test_the_fault_table_has_the_numbers_of_the_answer(make: Any) -> None:
    findings = make.findings(make.passed())
    text = faults_report(findings.studies, 80)
    points = answer(findings, View())["conditions"]["normal"]["points"]
    assert points["main bus"]["fault_max_A"] == 8123.4
    row = next(line for line in text.splitlines() if line.startswith("main bus"))
    assert row.split()[2:] == ["8.12", "kA", "unknown", "28.8", "V", "400", "µs", "26.1", "V"]
    assert "  - switch-1: resistance" in text
    assert max(map(len, text.splitlines())) <= 80


def test_cards(make: Any) -> None:
    pack = make.pack()
    index = rule_index([pack], 120)
    squeezed = " ".join(index.split())
    for phrase in ("fundamentals/interrupt-", "The device can", "UL 248-1:2011, clause 8"):
        assert phrase in squeezed
    card = rule_card(pack, pack.rules[0], 80)
    for phrase in ("bursts", "strip fuse", "Fit a device", "UL 248-1:2011, clause 8 (from memory)"):
        assert phrase in card
    assert "not covered  surges" in pack_card(pack, 80)


def test_input_errors_come_in_the_order_of_the_file() -> None:
    problems = (
        Problem("a.yaml", 9, 3, "unknown key 'lenght'", "length, runs", "length"),
        Problem("a.yaml", 2, 1, "no unit", "24 V, 48 V"),
        Problem("a.yaml", 0, 0, "empty"),
    )
    assert input_errors(problems) == (
        "a.yaml: empty\n"
        "a.yaml:2:1: no unit; allowed: 24 V, 48 V\n"
        "a.yaml:9:3: unknown key 'lenght'; allowed: length, runs; did you mean 'length'?\n"
        "3 problems; nothing was checked.\n"
    )


def test_input_errors_show_no_control_character() -> None:
    assert "\x1b" not in input_errors((Problem("a\x1b[1m", 1, 1, "bad \x1b]0;"),))


FOUND = "port feed/1: fault current is 8.50 kA"
RATED = "the interrupt rating at 32 V of 5.00 kA"
NO_SIDES: dict[str, Any] = {"found": None, "required": None, "relation": ""}


@pytest.mark.parametrize(
    ("changes", "sentence"),
    [
        ({}, f"{FOUND}, more than {RATED}."),
        ({"relation": ">="}, f"{FOUND}, short of {RATED}."),
        ({"reason": "own battery"}, f"{FOUND}, more than {RATED} (own battery)."),
        ({**NO_SIDES, "reason": "no device before it"}, "port feed/1: no device before it."),
    ],
)
def test_one_sentence_says_why(make: Any, changes: dict[str, Any], sentence: str) -> None:
    assert because(make.fail(**changes)) == sentence


def test_signs_that_nobody_sees_are_shown() -> None:
    assert clean("a\tb\u2066c\ud800") == r"a\tb\u2066c\ud800"
    assert clean("Größe 3 Ω µ²") == "Größe 3 Ω µ²"


def test_a_source_that_was_not_read_says_so() -> None:
    recalled = Source("IEC 60228:2004", "table 3", read=False)
    assert source_words(recalled) == "IEC 60228:2004, table 3 (from memory)"
    assert source_words(DEFINITION) == "definition"
    assert given("x", "x", 1.0, "A", DEFINITION).source == DEFINITION
