"""Two seals held apart: every cause and every move is told, and nothing else."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest

from coordination.sealing.as_data import changes_data
from coordination.sealing.as_text import changes_markdown, changes_text, headline
from coordination.sealing.changes import MOVES, changes_between
from coordination.sealing.seal import (
    Asked,
    Program,
    RuleFile,
    Seal,
    SealedFile,
    SealedPack,
    SealedPart,
    SealedVerdict,
)

A, B = "a" * 64, "b" * 64


def seal(**differing: Any) -> Seal:
    whole = Seal(
        format=1, system="Tern", file=SealedFile("tern.yaml", A), by="J. Tern", why="",
        date="2026-11-25", replaces=None, program=Program("0.1.0", A), verdict="pass",
        counts={"pass": 1}, problems=[], conditions=["normal"], asked=Asked(), rule_files=[],
        packs={"fundamentals": SealedPack("1", "first", "2026-01-01", 25, A)},
        parts={"f": SealedPart("shop", 3, A, {"kind": "fuse", "rated_current": "300 A"})},
        verdicts={"p/r": {"main": SealedVerdict("pass", "normal", 2.0)}}, digest=A,
    )  # fmt: skip
    return msgspec.structs.replace(whole, **differing)


def verdict(word: Any, margin: float | None = None) -> dict[str, Any]:
    return {"p/r": {"main": SealedVerdict(word, "normal", margin)}}


def test_the_same_is_no_change() -> None:
    changes = changes_between(seal(), seal(by="somebody", date="2027-01-01", digest=B))
    assert changes.none
    assert changes.causes == ()
    assert headline(changes) == "Nothing has changed since the seal of 2026-11-25 by J. Tern"
    assert changes_data(changes)["changed"] is False


CAUSES: list[tuple[str, dict[str, Any], str]] = [
    ("file", {"file": SealedFile("tern.yaml", B)}, "content: aaaaaaaaaaaa then, bbbbbbbbbbbb now"),
    ("file", {"file": SealedFile("other.yaml", A)}, "name: tern.yaml then, other.yaml now"),
    ("file", {"system": "Gull"}, "system: Tern then, Gull now"),
    ("program", {"program": Program("0.2.0", B)}, "version: 0.1.0 then, 0.2.0 now"),
    ("program", {"program": Program("0.1.0", B)}, "content: aaaaaaaaaaaa then, bbbbbbbbbbbb now"),
    (
        "packs",
        {"packs": {"fundamentals": SealedPack("1", "second", "2027-01-01", 25, B)}},
        "fundamentals: 1, edition first then, 1, edition second now",
    ),
    (
        "packs",
        {"packs": {"fundamentals": SealedPack("1", "first", "2026-01-01", 25, B)}},
        "fundamentals, content: aaaaaaaaaaaa then, bbbbbbbbbbbb now",
    ),
    ("packs", {"packs": {}}, "fundamentals: 1, edition first then, not there now"),
    (
        "rules",
        {"rule_files": [RuleFile("house-rules", "yard.yaml", B)]},
        "house-rules yard.yaml: not there then, bbbbbbbbbbbb now",
    ),
    ("asked", {"asked": Asked(["us"], [])}, "--pack: not there then, us now"),
    ("parts", {"parts": {}}, "f no longer used"),
    (
        "parts",
        {"parts": {"f": SealedPart("shop", 4, A, {"kind": "fuse", "rated_current": "300 A"})}},
        "f revised: revision: 3 then, 4 now",
    ),
    (
        "parts",
        {"parts": {"f": SealedPart("file", None, B, {"kind": "fuse", "rated_current": "250 A"})}},
        "f changed: origin: shop then, file now; revision: 3 then, not there now; "
        "rated_current: 300 A then, 250 A now",
    ),
]


@pytest.mark.parametrize(("cause", "differing", "words"), CAUSES)
def test_a_cause_is_named_with_what_it_was(
    cause: str, differing: dict[str, Any], words: str
) -> None:
    changes = changes_between(seal(), seal(**differing))
    assert changes.causes == (cause,)
    assert not changes.none
    assert not changes.other_verdicts
    assert words in " ".join(changes_text(changes, 400).split())
    assert words in changes_markdown(changes).replace("\\", "")


@pytest.mark.parametrize(
    ("was", "now", "how"),
    [
        (verdict("pass", 2.0), verdict("fail", 0.9), "new fail"),
        (verdict("waived", 0.9), verdict("fail", 0.9), "new fail"),
        (verdict("unproven"), verdict("fail", 0.9), "new fail"),
        ({}, verdict("fail", 0.9), "new fail"),
        (verdict("fail", 0.9), verdict("unproven"), "newly unproven"),
        (verdict("pass", 0.9), verdict("unproven"), "newly unproven"),
        (verdict("fail", 0.9), verdict("waived", 0.9), "newly waived"),
        (verdict("fail", 0.9), verdict("pass", 1.1), "cured"),
        (verdict("unproven"), verdict("note"), "cured"),
        (verdict("pass", 2.0), {}, "no longer judged"),
        ({}, verdict("pass", 2.0), "newly judged"),
        (verdict("pass", 2.0), verdict("note"), "other"),
        (verdict("pass", 2.0), verdict("pass", 1.9), "lower margin"),
        (verdict("fail", 0.8), verdict("fail", 0.7), "lower margin"),
        (verdict("pass", 2.0), verdict("pass", 2.1), "higher margin"),
        (verdict("pass", 2.0), verdict("pass", None), "other"),
    ],
)
def test_every_move_has_its_name(was: Any, now: Any, how: str) -> None:
    changes = changes_between(seal(verdicts=was), seal(verdicts=now))
    assert [each.how for each in changes.moves] == [how]
    assert how in MOVES
    only_margin = how.endswith("margin") or (how == "other" and now["p/r"]["main"].margin is None
                                             and now["p/r"]["main"].verdict == "pass")  # fmt: skip
    assert changes.other_verdicts is not only_margin


def test_rounding_is_no_lower_margin() -> None:
    """Half a millionth under 2 is rounding; two millionths are not."""
    near, far = verdict("pass", 2.0 - 1e-6), verdict("pass", 2.0 - 4e-6)
    assert changes_between(seal(), seal(verdicts=near)).none
    assert not changes_between(seal(), seal(verdicts=far)).none


def test_what_needs_a_hand_comes_first_and_least_margins_first() -> None:
    def both(one: float, other: float, word: Any = "pass") -> dict[str, Any]:
        margins = {"x": one, "y": other}
        return {
            "p/r": {name: SealedVerdict("pass", "normal", each) for name, each in margins.items()},
            "p/s": {"z": SealedVerdict(word, "normal", 1.5)},
        }

    text = changes_text(
        changes_between(seal(verdicts=both(9, 9)), seal(verdicts=both(5, 1.2, "fail"))), 80
    )
    assert text.index("New fails (1)") < text.index("Margins lower (2)")
    assert text.index("\ny ") < text.index("\nx ")


def test_hostile_names_are_shown_not_sent() -> None:
    name = "main\x1b[31m\u202e"
    was = seal(by=name, verdicts={"p/r": {name: SealedVerdict("pass", "normal", 2.0)}})
    now = seal(verdicts={"p/r": {name: SealedVerdict("fail", "normal", 0.5)}}, system=name)
    for text in (
        changes_text(changes_between(was, now), 80),
        changes_markdown(changes_between(was, now)),
    ):
        assert "\x1b" not in text
        assert "\u202e" not in text
        assert "x1b" in text
