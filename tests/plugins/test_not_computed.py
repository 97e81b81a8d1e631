"""A current between batteries that was not taken apart proves nothing, whatever its sum is."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from fusewright_budget.equalising_current import equalising_current

from coordination.rules import COMMON_PRACTICE, Unknown, given

SWITCH = SimpleNamespace(name="link switch", normally_open=True)


def judged(current: Any) -> list[Any]:
    """The rule's answers where a flow tells of no battery what it gives or takes."""
    flow = SimpleNamespace(current=current, each={})
    study = SimpleNamespace(joins_with_others=lambda _: False, equalising=lambda _: (flow,))
    return list(equalising_current.judge(SWITCH, study))


def test_a_known_sum_alone_is_no_pass() -> None:
    (answer,) = judged(given("equalising current", "I", 40.0, "A", COMMON_PRACTICE))
    assert answer.verdict == "unproven"
    assert answer.missing == ("link switch: what each battery gives or takes",)


def test_what_is_missing_is_named() -> None:
    (answer,) = judged(Unknown("equalising current", ("start: resistance",)))
    assert answer.verdict == "unproven"
    assert answer.missing == ("start: resistance",)
