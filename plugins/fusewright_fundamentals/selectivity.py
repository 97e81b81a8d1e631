"""A fault must be cleared by the device nearest to it, before any other on the way can open."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import inf
from typing import Any

from coordination.rules import COMMON_PRACTICE, Card, Judgement, passed, rule, unproven
from fusewright_fundamentals.amounts import amps

CARD = Card(
    name="selectivity",
    title="The device nearest the fault opens first",
    why="If a device further up opens first, or together with it, a fault in one circuit darkens "
    "all the others.",
    wrong="A 300 A fuse over a 250 A fuse of the same class: both melt before the smaller one has "
    "cleared. A ratio of amperes across two families, fast over slow.",
    right="An upstream device whose earliest opening lies above the latest clearing of this one at "
    "every current (of one class often twice the rating); a smaller device here if its load "
    "allows; its own device at the battery for this circuit; or a written waiver.",
    severity="outage",
    source=COMMON_PRACTICE,
)


@rule(CARD, each=("device", "channel"))
def selectivity(device: Any, study: Any) -> list[Judgement] | None:
    """Judgements for the devices upstream of this one, in either direction of fault current.

    The worst counts; the others that are no better are named with it.
    """
    judged = [(pair, _judge(pair, study)) for pair in _telling(study.pairs_below(device), study)]
    failing = [pair.up for pair, judgement in judged if judgement.verdict == "fail"]
    return [
        _naming_others(judgement, [up for up in failing if up is not pair.up])
        for pair, judgement in judged
    ] or None


def _telling(pairs: Sequence[Any], study: Any) -> list[Any]:
    """The pairs but those that are proven further apart than another: of passes one is told."""
    apart = [_apart(pair, study) for pair in pairs]
    closest = min((ratio for ratio in apart if ratio is not None), default=None)
    first = apart.index(closest) if closest is not None else -1
    return [
        pair
        for place, (pair, ratio) in enumerate(zip(pairs, apart, strict=True))
        if ratio is None or place == first
    ]


def _apart(pair: Any, study: Any) -> float | None:
    """How many times later the upstream device of a proven pair opens, at the least; else None."""
    if pair.alone:
        return inf
    result = study.compared(pair).result
    if result is None or result.standing != "proven":
        return None
    opens, cleared = result.worst.opens.time, result.worst.cleared.time
    ratio: float = opens / cleared if opens is not None and cleared else inf
    return ratio


def _naming_others(judgement: Judgement, others: list[Any]) -> Judgement:
    if judgement.verdict != "fail" or not others:
        return judgement
    names = ", ".join(dict.fromkeys(_rated(up) for up in others))
    return replace(judgement, reason=f"{judgement.reason}; nor under {names}")


def _judge(pair: Any, study: Any) -> Judgement:
    if pair.alone:
        return passed(f"nothing else is fed between it and {pair.up.name}")
    compared = study.compared(pair)
    against = f"under {_rated(pair.up)}"
    if compared.result is None:
        return unproven(*compared.missing, reason=against)
    result = compared.result
    if result.standing != "proven" and (helper := _helper(pair, result, study)):
        return passed(
            f"under {pair.up.name}: {helper.name}, in series with it and nothing fed between, "
            "clears where it does not"
        )
    if result.standing == "unproven":
        missing = study.lacking(pair, _open_at(result))
        return unproven(*missing, reason=f"{against}, {_extent(result)}")
    worst = result.worst
    required = study.earliest(pair, worst)
    if required is None:
        return passed(
            f"{pair.up.name} carries for good all that flows until {pair.down.name} has cleared, "
            f"{amps(worst.upstream_current)} at most"
        )
    found = study.latest(pair, worst)
    return Judgement(
        verdict="pass" if result.standing == "proven" else "fail",
        found=found,
        relation="<=",
        required=required,
        margin=required.value / found.value,
        reason=f"{_rated(pair.down)} {against}, compared at {amps(worst.current)}, "
        f"{_extent(result)}",
    )


def _helper(pair: Any, result: Any, study: Any) -> Any:
    """A device in series that clears what this one does not: then either is as good as the other.

    Where it must open, it is proven under the same upstream device; below that, this one is.
    """
    for other in study.pairs_below(pair.down):
        if not other.alone or other.forward != pair.forward or other.up is pair.up:
            continue
        if other.up.circuit != pair.down.circuit:
            continue
        if getattr(other.share, "value", None) != 1.0 or result.proven_up_to is None:
            continue
        for above in study.pairs_below(other.up):
            if above.up is pair.up and above.forward == pair.forward:
                proven = study.compared(above).result
                if proven and proven.standing == "proven" and proven.low <= result.proven_up_to:
                    return other.up
    return None


def _open_at(result: Any) -> Any:
    return result.worst if result.worst.standing != "proven" else result.first_gap


def _rated(device: Any) -> str:
    rating = getattr(device.part, "rated_current", None)
    return f"{device.name} ({amps(rating)})" if rating else str(device.name)


def _extent(result: Any) -> str:
    """Up to which current the pair is proven, and where it first is not."""
    if result.first_gap is None:
        return f"proven from {amps(result.low)} to {amps(result.high)}"
    gap = f"first gap at {amps(result.first_gap.current)}"
    if result.proven_up_to is None:
        return f"proven at no current from {amps(result.low)}, {gap}"
    return f"proven up to {amps(result.proven_up_to)}, {gap}"
