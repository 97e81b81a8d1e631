"""Missing data: grouped, ranked, and what stating one would decide."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from coordination.checking import Request, findings_of
from coordination.margins.unknowns import Key, key_of, only_together

BENCH = Path(__file__).parents[3] / "fixtures" / "systems" / "bench-60.yaml"

RATING = "\n    interrupt_ratings: [{voltage: 125 V, current: 20 kA}],"
RESISTANCE = "\n    resistance: {min: 0.10 mΩ, max: 0.20 mΩ},"


@pytest.mark.parametrize(
    ("phrase", "key"),
    [
        ("fuse-t-300: interrupt_ratings at >= 28.8 V", Key("fuse-t-300", "interrupt_ratings")),
        ("pack: discharge.peak >= 6.99 kA", Key("pack", "discharge.peak")),
        ("pack: discharge.peak for >= 10 s", Key("pack", "discharge.peak")),
        ("t-15: derating at 25 °C", Key("t-15", "derating")),
        ("an ampacity basis", Key("", "an ampacity basis")),
    ],
)
def test_phrases_that_want_one_datum_at_other_values_are_one(phrase: str, key: Key) -> None:
    assert key_of(phrase) == key


def by_words(told: Any) -> dict[str, Any]:
    """The missing data by their names."""
    return {each.datum.key.words: each for each in told.unknowns}


def test_the_rating_that_would_settle_is_the_duty(
    changed: Callable[..., Path], told: Callable[..., Any]
) -> None:
    """Fails below 27.2 V / 1.40 mΩ = 19.43 kA, passes from there on."""
    found = by_words(told(changed((RATING, "")), inputs=("emf.min",)))["t-100: interrupt_ratings"]
    assert (len(found.datum.alone), len(found.datum.others)) == (1, 0)
    below, above = found.stretches
    assert (below.verdict, above.verdict) == ("fail", "pass")
    assert below.low is None
    assert above.high is None
    assert below.high.value == pytest.approx(27.2 / 1.4e-3, rel=5e-3)
    assert below.high.value >= 27.2 / 1.4e-3


def test_a_resistance_that_is_unknown_is_tried(
    changed: Callable[..., Path], told: Callable[..., Any]
) -> None:
    """3 % of 24 V at 85 A are 8.471 mΩ; 4 m of cable take 4 × 1.0672 = 4.269 mΩ: 4.202 mΩ are
    left for the fuse."""
    found = by_words(told(changed((RESISTANCE, "")), "machine", "voltage-drop"))
    (only,) = found.values()
    assert only.datum.key == Key("t-100", "resistance")
    below, above = only.stretches
    assert (below.verdict, above.verdict) == ("pass", "fail")
    by_hand = 0.03 * 24 / 85 - 4 * 2 * 0.4e-3 * 339.5 / 254.5
    assert below.high.value == pytest.approx(by_hand, rel=3e-3)
    assert below.high.value <= by_hand


def test_a_flag_is_tried_both_ways(
    changed: Callable[..., Path], told: Callable[..., Any]
) -> None:
    """A drop of 4 % passes where 10 % is allowed, for what is not critical; critical: 3 %.

    85 A × (4.269 + 0.20) mΩ / 24 V = 1.58 %; at 11 m: 85 A × (11.739 + 0.20) mΩ / 24 V = 4.23 %.
    """
    path = changed(("critical: no, drop_limit: 3 %, ", ""), ("length: 4 m", "length: 11 m"))
    found = by_words(told(path, "machine", "voltage-drop"))
    (only,) = found.values()
    assert [(each.choice, each.verdict) for each in only.stretches] == [
        ("yes", "fail"), ("no", "pass"),
    ]  # fmt: skip


def test_what_settles_most_comes_first_and_a_curve_is_not_tried(
    changed: Callable[..., Path], told: Callable[..., Any]
) -> None:
    found = told(changed((RATING, ""), (RESISTANCE, "")), inputs=("emf.min",))
    first = found.unknowns[0]
    counts = [len(each.datum.alone) for each in found.unknowns]
    assert counts == sorted(counts, reverse=True)
    assert first.datum.key == Key("t-100", "curve")
    assert first.stretches == ()
    assert "more than one figure" in first.untried


def test_several_together_count_what_lacks_no_more_than_them() -> None:
    """In the sixty lines the main fuse and the main switch state no resistance. Three findings want
    just these two; every other that does wants a branch fuse's besides: two of the fuse at 125 A
    (the windlass's drop, and its fuse's weakest fault), so with that one stated too it is five."""
    findings = findings_of(Request(str(BENCH))).findings
    sets = {frozenset(map(str, (key.who for key in each.keys))): len(each.pairs)
            for each in only_together(findings)}  # fmt: skip
    main = {"fuse-t-300-dc", "switch-dc21-400"}
    assert sets[frozenset(main)] == 3
    assert sets[frozenset({*main, "fuse-t-125-dc"})] == 5
