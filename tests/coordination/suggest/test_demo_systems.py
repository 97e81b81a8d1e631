"""The planted conflicts of the demo systems: solved, or shown to have no cure, by a new check."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from coordination.suggest import Answer
from coordination.suggest.applying import apply_text
from tests.coordination.suggest.conftest import FIXTURES, Kit, changes_of

Rows = dict[str, set[tuple[str, str]]]


def _planted(name: str) -> Rows:
    """Of each planted fault the fails that the expectation file lists: (rule, subject)."""
    text = (FIXTURES / f"{name}-planted.expected.yaml").read_text("utf-8")
    told = yaml.safe_load(text)
    faults = {**told["planted"], **told["besides"]} if "besides" in told else told["planted"]
    return {
        key: {(row["rule"], row["subject"]) for row in fault.get("expect", ())
              if row["verdict"] == "fail"}
        for key, fault in faults.items()
    }  # fmt: skip


def _checked(kit: Kit, path: Path, answer: Answer) -> dict[tuple[str, str], str]:
    """Verdicts of the file that --apply writes, read from the disk."""
    apply_text(str(path), answer.document, answer.cures[0].text)
    return kit.verdicts(path.read_text("utf-8"))


def _not_worse(answer: Answer, after: dict[tuple[str, str], str]) -> None:
    """No finding is worse than before: what passed passes, what was unproven does not fail."""
    rank = {"pass": 0, "note": 0, "unproven": 1, "fail": 2}
    before = {(e.rule.partition("/")[2], e.subject): e.verdict for e in answer.before.findings}
    for key, verdict in after.items():
        if key in before:
            assert rank[verdict] <= rank[before[key]], key


def test_every_planted_fault_of_the_van_is_cured(kit: Kit) -> None:
    """B-2 and B-3 are in each other's way: 225 A carry the 207 A, and are selective under 400 A
    only, for which the battery feed must be larger than 95 mm².
    """
    path = kit.demo("van", "tender")
    answer = kit.ask(path, changes=2)
    after = _checked(kit, path, answer)
    assert "fail" not in after.values()
    for key in set().union(*_planted("van").values()):
        assert after[key] == "pass", key
    _not_worse(answer, after)
    made = changes_of(answer)[0]
    assert {("part", "main fuse", "demo-t-400"), ("part", "inverter fuse", "demo-t-225")} <= made
    assert ("cable", "battery feed/2", "demo-cable-120") in made


def test_the_conflict_of_the_van_is_solved_as_a_set(kit: Kit) -> None:
    answer = kit.ask(kit.demo("van", "tender"), "inverter fuse")
    assert changes_of(answer)[0] == {
        ("cable", "battery feed/2", "demo-cable-120"),
        ("part", "inverter fuse", "demo-t-225"),
        ("part", "main fuse", "demo-t-400"),
    }
    assert answer.exhausted


def test_the_conflict_of_the_van_has_no_cure_with_its_own_parts(kit: Kit) -> None:
    """300 A for the inverter under 300 A for all: whatever else is given up, selectivity fails."""
    answer = kit.ask(kit.demo("van"), "inverter fuse", changes=2)
    assert not answer.cures
    conflict = answer.conflict
    assert conflict is not None
    assert conflict.rules == ("fundamentals/selectivity",)
    assert [(each.rule, each.subject) for each in conflict.waivers] == [
        ("fundamentals/selectivity", "inverter fuse")
    ]


def test_without_a_fuse_that_breaks_enough_the_answer_says_what_is_lacking(kit: Kit) -> None:
    """13.6 V / 1.05 mΩ = 12.95 kA at 14.4 V; no part of the planted file or the generic ones."""
    path = FIXTURES / "van-planted.yaml"
    answer = kit.ask(path, "main fuse")
    assert not answer.cures
    assert answer.exit_status == 1
    (wanted,) = answer.wanted
    assert wanted.needs.duty == pytest.approx(13.6 / 1.05e-3)
    assert wanted.needs.voltage == pytest.approx(14.4)


def test_the_planted_faults_of_the_cabin(kit: Kit) -> None:
    """All but C-6 (below) and selectivity with two racks out, which no fuse mends: the mended
    drawing has waivers for it.
    """
    path = kit.demo("cabin")
    answer = kit.ask(path, changes=1)
    planted = _planted("cabin")
    after = _checked(kit, path, answer)
    for fault in ("C-1", "C-2", "C-3", "C-4", "C-5", "C-7"):
        for rule, subject in planted[fault]:
            # A fuse in a breaker's place is no breaker: nobody asks for its polarity.
            assert after.get((rule, subject), "pass") == "pass", (fault, rule, subject)
    assert ("breaker-polarity", "rack 2 breaker") not in after
    assert ("interrupt-rating", "rack 2 breaker") in after
    _not_worse(answer, after)
    left = {key for key, verdict in after.items() if verdict == "fail"}
    assert left <= planted["C-6"] | planted["C-8"] | planted["C-9"]


def test_the_rack_that_carries_too_much(kit: Kit) -> None:
    """C-6: a 70 mm² lead at rack 3, 0.272 mΩ/m: 12.4 + 2 × 2.5 × 0.272 × 1.33399 = 14.214 mΩ.
    Rack 1 then carries 184.98 × 14.214 / (13.287 + 14.214) = 95.6 A of its 100 A.
    """
    answer = kit.ask(kit.demo("cabin"), "rack 1", changes=2)
    assert changes_of(answer)[0] == {("cable", "rack 3 cable", "demo-cable-70")}
    fixed = {pair.before.rule: pair.after for pair in answer.cures[0].fixed if pair.before}
    after = fixed["fundamentals/battery-discharge"]
    assert after is not None
    assert after.margin == pytest.approx(100 / 95.61, rel=2e-3)
    # 70 mm² bears 125 A too: C-3 is cured with it.
    assert "fundamentals/cable-overload" in fixed


@pytest.mark.parametrize("subject", ["rack 1 fuse", "inverter fuse"])
def test_what_no_fuse_of_the_cabin_mends_is_shown_so(kit: Kit, subject: str) -> None:
    answer = kit.ask(kit.demo("cabin"), subject, changes=2)
    assert not answer.cures
    assert answer.exhausted
    assert answer.conflict is not None
    assert answer.conflict.rules == ("fundamentals/selectivity",)
    assert [(each.rule, each.subject) for each in answer.conflict.waivers] == [
        ("fundamentals/selectivity", subject)
    ]


@pytest.mark.parametrize(
    ("fault", "subject", "change"),
    [
        ("A-4", "inverter cable", ("return", "inverter cable", "demo-cable-95")),
        ("A-5", "dc-dc input cable", ("device", "dc-dc input", "demo-t-60")),
        ("A-6", "wash fuse", ("part", "wash fuse", "demo-t-50")),
        ("A-7", "radar wire", ("device", "radar output", "demo-ct-10")),
    ],
)
def test_a_planted_fault_of_the_tender_is_cured_by_one_change(
    kit: Kit, fault: str, subject: str, change: tuple[str, str, str]
) -> None:
    """As the mended drawing has it; a fuse between module and wire for A-7."""
    path = kit.demo("tender")
    answer = kit.ask(path, subject, changes=1)
    assert {change} in changes_of(answer)
    after = _checked(kit, path, answer)
    for rule, of in _planted("tender")[fault]:
        if of == subject:
            assert after[rule, of] == "pass"
    assert all(verdict != "fail" for (_, of), verdict in after.items() if of == subject)
    _not_worse(answer, after)


def test_the_contactor_that_carries_too_much_has_no_cure_among_parts(kit: Kit) -> None:
    """A-9: 221 A with one pack out over 200 A; a switch worked by hand is no contactor, and the
    load is not shed by a change of parts.
    """
    answer = kit.ask(kit.demo("tender"), "starboard contactor", changes=1)
    assert not answer.cures
    assert [each.name for each in answer.wanted] == ["starboard contactor"]


def test_a_wrong_ratio_of_the_tender_is_shown_to_have_no_cure(kit: Kit) -> None:
    """A-3: with one pack out all comes through that pack's fuse; the mended one has a waiver."""
    answer = kit.ask(kit.demo("tender"), "inverter fuse", changes=1)
    assert not answer.cures
    assert answer.exhausted
    assert answer.conflict is not None
    assert answer.conflict.rules == ("fundamentals/selectivity",)


def test_pack_fuses_that_break_too_little_are_cured_together(kit: Kit) -> None:
    """A-1: one pack fuse alone ends selectivity with the other's; two changes cure the first."""
    path = kit.demo("tender")
    answer = kit.ask(path, "port fuse", changes=2)
    after = _checked(kit, path, answer)
    assert len(changes_of(answer)[0]) == 2
    assert all(verdict != "fail" for (_, of), verdict in after.items() if of == "port fuse")
    assert after["interrupt-rating", "port fuse"] == "pass"
    _not_worse(answer, after)


def test_the_winch_breaker_is_shown_to_have_no_cure_by_one_part(kit: Kit) -> None:
    """A-2: what breaks 14 kA and carries the winch opens with the pack fuses, not before them."""
    answer = kit.ask(kit.demo("tender"), "winch breaker", changes=1)
    assert not answer.cures
    assert answer.exhausted
    assert answer.conflict is not None
    assert answer.conflict.rules == ("fundamentals/selectivity",)
