"""What is told of a flip holds on both its sides, by a whole check of a system so changed."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from coordination.checking import Request, findings_of, judged, prepare
from coordination.margins import margins_told
from coordination.margins.inputs import inputs_of
from coordination.margins.survey import Scope

HERE = Path(__file__).parent
FILE = HERE / "one_battery.yaml"
SMALL = HERE.parents[2] / "fixtures" / "systems" / "small"
WORSE = ("pass", "note", ""), ("unproven",), ("fail", "waived")


def verdict_at(path: Path, datum: str, value: float, rule: str, subject: str) -> str:
    """The verdict of a whole check with one input at a value."""
    request = Request(str(path))
    system, packs = prepare(request)
    (each,) = (one for one in inputs_of(system) if one.datum == datum)
    found = judged(request, each.put(system, value), packs)
    said = [one.verdict for one in found.findings if (one.rule, one.subject) == (rule, subject)]
    return said[0] if said else ""


def rank(verdict: str) -> int:
    """0 good, 1 unproven, 2 fail."""
    return next(at for at, words in enumerate(WORSE) if verdict in words)


def assert_both_sides(path: Path, told: Any) -> int:
    """Judge every reported flip anew on both sides; how many there were."""
    count = 0
    for margin in told.margins.margins:
        for flip in margin.flips:
            at = [
                verdict_at(path, margin.input.datum, value, flip.rule, flip.subject)
                for value in (flip.still, flip.flipped, flip.shown.value)
            ]
            assert (at[0], at[1]) == (flip.before, flip.after)
            assert rank(at[0]) != rank(at[1])
            # What is written for people is on the better side.
            assert rank(at[2]) == min(rank(at[0]), rank(at[1]))
            low, high = sorted((flip.still, flip.flipped))
            assert high - low <= 2e-4 * (margin.input.ends[1] - margin.input.ends[0])
            count += 1
    return count


@pytest.mark.parametrize(
    ("name", "subject"),
    [
        ("one_battery.yaml", "main fuse"),
        ("p02-rating-at-14-v.yaml", None),
        ("f09-one-and-a-quarter.yaml", "machine fuse"),
    ],
)
def test_every_flip_differs_on_both_sides(
    name: str, subject: str | None, told: Callable[..., Any]
) -> None:
    path = next(folder / name for folder in (HERE, SMALL) if (folder / name).exists())
    assert assert_both_sides(path, told(path, subject)) > 3


@settings(
    max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(
    amps=st.integers(20, 300),
    length=st.integers(1, 30),
    least=st.integers(60, 400),
    air=st.integers(-20, 70),
)
def test_on_any_figures_the_verdict_differs_on_both_sides(
    amps: int, length: int, least: int, air: int, tmp_path: Path
) -> None:
    text = FILE.read_text("utf-8")
    for old, new in (
        ("current: 85 A", f"current: {amps} A"),
        ("length: 4 m", f"length: {length} m"),
        ("{min: 1.40 mΩ, max: 2.40 mΩ}", f"{{min: {least / 100} mΩ, max: {least / 50} mΩ}}"),
        ("ambient: 30 °C", f"ambient: {air} °C"),
    ):
        assert old in text
        text = text.replace(old, new)
    path = tmp_path / "any.yaml"
    path.write_text(text, "utf-8")
    request = Request(str(path))
    system, packs = prepare(request)
    scope = Scope(wanted=("bank-24", "machine", "locker", "cable"))
    told = margins_told(system, packs, lambda one, some: judged(request, one, some), scope)
    assert assert_both_sides(path, told) > 0


def test_the_file_of_these_tests_is_unproven_only_for_want_of_a_curve() -> None:
    findings = findings_of(Request(str(FILE)))
    assert (findings.counts["fail"], findings.counts["unproven"]) == (0, 3)


def test_a_verdict_that_flips_twice_is_told_twice(
    changed: Callable[..., Path], told: Callable[..., Any]
) -> None:
    """85 A on 100 A at 90 % and 80 %: passes to 50 °C, fails to 60 °C, is not known above."""
    margins = told(changed(), "main fuse", "device-load", inputs=("locker",)).margins
    (air,) = margins.margins
    steps = [(flip.before, flip.after, round(flip.shown.value, 1)) for flip in air.flips]
    assert steps == [("pass", "fail", 50.0), ("fail", "unproven", 60.1)]


def test_a_step_down_and_up_again_is_found_by_sampling(
    changed: Callable[..., Path], told: Callable[..., Any]
) -> None:
    """Ratings by voltage are steps: 20 kA up to 30 V, 15 kA up to 40 V. At 28.8 V of charge 19.4 kA
    pass; above 30 V they do not: a flip in a figure that moves no current."""
    path = changed(
        ("[{voltage: 125 V, current: 20 kA}]",
         "[{voltage: 30 V, current: 20 kA}, {voltage: 40 V, current: 15 kA}]"),
    )  # fmt: skip
    margins = told(path, "main fuse", "interrupt-rating", inputs=("charge voltage",)).margins
    (charge,) = margins.margins
    (flip,) = charge.flips
    assert (flip.before, flip.after, flip.shown.text) == ("pass", "fail", "30.0 V")
