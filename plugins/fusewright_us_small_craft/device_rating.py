"""Law: every conductor has a device, rated for it; both readings of the clause are shown."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from coordination.rules import (
    DECIDES,
    Card,
    Judgement,
    Unknown,
    Value,
    capped,
    compare,
    fail,
    note,
    unproven,
)
from fusewright_us_small_craft.conductor import installations
from fusewright_us_small_craft.cranking import is_cranking
from fusewright_us_small_craft.device_bound import Unbounded, device_bound
from fusewright_us_small_craft.device_limit import Limits, below_50_volts, from_50_volts
from fusewright_us_small_craft.options import asked, stated
from fusewright_us_small_craft.scope import law, law_rule
from fusewright_us_small_craft.table5 import BUNDLES_COUNT
from fusewright_us_small_craft.voltage import nominal

CARD = Card(
    name="device-rating",
    title="Law: device rated for its conductor",
    why="A device too large for its conductor lets it burn before it opens. Below 50 V the clause "
    "allows 150 % of Table 5 and no next size; from 50 V on 100 %, or the next standard rating.",
    wrong="A fuse chosen for the load; a 51.2 V bank treated as below 50 V; the engine space "
    "left out of the 150 %.",
    right="A device at or below the corrected limit: then both readings are met.",
    severity="fire",
    source=law("183.455(a), (c)"),
    basis="law",
)


@law_rule(CARD, each="cable")
def device_rating(cable: Any, study: Any) -> Judgement | Iterator[Judgement] | None:
    """What its devices let through against the limit of the conductor, each leg."""
    if is_cranking(cable, study):
        return note("supply conductor of a cranking circuit, exempt", source=law("183.455(e)"))
    bound = device_bound(cable, study)
    if bound is None:
        return None
    if isinstance(bound, Unbounded):
        return _without(bound, study)
    return _legs(cable, bound, study)


def _without(bound: Unbounded, study: Any) -> Judgement:
    names = ", ".join(bound.sources)
    if not bound.limited:
        return fail(f"no fuse or breaker bounds the current from {names}")
    limiting = stated(study, "self_limiting")
    if limiting is None:
        return unproven(asked("self_limiting"), reason=f"no device towards {names}")
    if limiting:
        return note(f"only self-limiting sources: {names}", source=law("183.460(b)"))
    return fail(f"no fuse or breaker bounds the current from {names}")


def _legs(cable: Any, bound: Value, study: Any) -> Iterator[Judgement]:
    volts = nominal(cable.start, study)
    for leg in installations(cable, study):
        if isinstance(volts, Unknown):
            yield unproven(*volts.missing, reason="below or from 50 V on")
        elif volts.value < BUNDLES_COUNT:
            yield _between(bound, below_50_volts(leg), "150 % of Table 5")
        else:
            yield _from_50(bound, from_50_volts(leg), study)


def _between(bound: Value, limits: Limits, basis: str) -> Judgement:
    """Fail above the literal limit; paperwork between the two readings, both printed."""
    judgement = compare(bound, at_most=limits.corrected, reason=basis)
    literal, corrected = limits.literal, limits.corrected
    if isinstance(literal, Unknown) or isinstance(corrected, Unknown):
        return judgement
    both = (
        f"literal limit {literal.value:.4g} A ({basis}, notes left out), "
        f"corrected limit {corrected.value:.4g} A"
    )
    if judgement.verdict != "fail":
        return replace(judgement, reason=both)
    if compare(bound, at_most=literal).verdict == "pass":
        reason = f"{both}: allowed by the clause's words, not with the notes inside it"
        return compare(bound, at_most=corrected, reason=reason, severity="paperwork")
    beyond = compare(bound, at_most=limits.hard, reason=f"above both: {both}")
    if beyond.verdict == "fail":
        return beyond
    # Only the list of standard ratings, which was not read, lies between.
    return capped(compare(bound, at_most=literal, reason=f"above both: {both}"))


def _from_50(bound: Value, limits: Limits, study: Any) -> Judgement:
    """100 %; above it only the next standard rating, of which the list here is from memory."""
    plain = compare(bound, at_most=limits.plain, reason="100 %, nominal 50 V or more")
    if plain.verdict != "fail":
        return plain
    judgement = _between(bound, limits, "100 % or next standard rating")
    if judgement.verdict == "fail":
        return judgement
    if stated(study, "next_standard_rating"):
        return replace(judgement, reason=f"{judgement.reason}; stated to be the next standard one")
    return unproven(asked("next_standard_rating"), reason=DECIDES)
