"""Closing a link between banks must not drive more than batteries and devices on the way allow."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, Unknown, compare, rule, unproven
from coordination.rules.kit.stated import rating

CARD = Card(
    name="equalising-current",
    title="Link may be closed between unequal banks",
    why="The fuller bank drives the difference of the voltages through nothing but the "
    "resistances of batteries and leads, for minutes to an hour: a fuse or a pack's electronics "
    "open, or a relay welds, just when the link is needed.",
    wrong="An emergency switch between a full lithium bank and a flat start battery.",
    right="A DC-DC converter or a resistance in the link, a longer or thinner lead with a fuse for "
    "it, or a label that asks for like voltages before it is closed.",
    severity="damage",
    source=COMMON_PRACTICE,
)


@rule(CARD, each="disconnect")
def equalising_current(switch: Any, study: Any) -> Iterator[Judgement]:
    """Of a switch drawn open that alone joins two banks in this condition; both ways, max bound.

    It lasts for minutes: continuous ratings count, not those for seconds.
    """
    if not switch.normally_open:
        return
    if study.joins_with_others(switch):
        yield unproven(f"{switch.name}: how several links that are closed share is not computed")
    for flow in study.equalising(switch):
        if not flow.each:
            yield _not_computed(flow.current, switch)
            continue
        yield from _batteries(flow, study)
        yield from _devices(flow, study)


def _not_computed(current: Any, switch: Any) -> Judgement:
    """Without what each battery gives or takes nothing is shown, whatever the sum is."""
    if isinstance(current, Unknown):
        return unproven(*current.missing)
    return unproven(f"{switch.name}: what each battery gives or takes")


def _batteries(flow: Any, study: Any) -> Iterator[Judgement]:
    """What each gives against its continuous discharge; what each takes against its limit."""
    for source in flow.giving:
        allowed = rating(
            source.part, "discharge.continuous", f"continuous discharge of {source.name}", "I_dis",
            "A",
        )  # fmt: skip
        yield compare(flow.each[source.name], at_most=allowed, reason=f"out of {source.name}")
    for source in flow.taking:
        limit = study.charge_limit(source)
        yield compare(flow.each[source.name], at_most=limit, reason=f"into {source.name}")


def _devices(flow: Any, study: Any) -> Iterator[Judgement]:
    """What flows through each device on the way against its rating; each is judged one time."""
    for element in study.subjects("element"):
        current = flow.through.get(element.name)
        if current is not None and element.kind in ("fuse", "breaker", "disconnect", "channel"):
            rated = rating(element.part, "rated_current", f"rating of {element.name}", "I_n", "A")
            reason = f"through {element.name}"
            severity = "damage" if element.kind == "disconnect" else "outage"
            yield compare(current, at_most=rated, reason=reason, severity=severity)  # type: ignore[arg-type]
