"""A conductor's device must not be rated above its ampacity, or one standard rating above."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import product
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Installation,
    Judgement,
    Rule,
    Unknown,
    Value,
    capped,
    compare,
    derive,
    fail,
    rule,
)
from coordination.rules.kit.editions import dated
from coordination.rules.kit.installed import installations
from fusewright_us_premises.ampacity import corrected
from fusewright_us_premises.conductor import wired_in_free_air
from fusewright_us_premises.editions import Y2023, Edition
from fusewright_us_premises.guard import Bare, Guard, guards
from fusewright_us_premises.standard_ratings import next_standard
from fusewright_us_premises.starters import starter_exemption, starts_engine
from fusewright_us_premises.terminations import termination_limit

CARD = Card(
    name="conductor-protection",
    title="The device fits the conductor's ampacity",
    why="240.4: conductors are protected in accordance with their ampacities, after correction for "
    "ambient and adjustment for bundling, and within what their terminals allow. Up to 800 A the "
    "next standard rating above is allowed where the ampacity is no standard rating (240.4(B)).",
    wrong="A 175 A fuse on 2 AWG; a tap without a device on a bar that two fuses feed.",
    right="A smaller device, a larger conductor, or a cooler and looser run.",
    severity="fire",
    basis="standard",
    source=Y2023.source("240.4", "2023"),
)


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.source("240.4", "2023")

    @rule(dated(CARD, source), each="cable")
    def conductor_protection(cable: Any, study: Any) -> Iterator[Judgement]:
        """The device's rating against ampacity and terminals, each leg in turn.

        An engine's starter battery up to 60 V needs no device, if it serves the engine only.
        """
        found = guards(cable, study)
        if isinstance(found, Bare):
            yield _bare(found, cable, study, edition)
            return
        for each, leg in product(found, installations(cable, study)):
            limit = _limit(leg, cable, each, study, edition)
            yield _judged(each, limit, edition)

    return conductor_protection


def _bare(found: Bare, cable: Any, study: Any, edition: Edition) -> Judgement:
    if starts_engine(cable, study) and (exempt := starter_exemption(cable, study, edition)):
        return exempt
    source = edition.source("240.4", "2023")
    return capped(fail(f"no device protects it from {', '.join(found.batteries)}"), source)


def _limit(leg: Installation, cable: Any, found: Guard, study: Any, edition: Edition) -> Value:
    """The smaller of the corrected ampacity and what the terminals allow [A]."""
    ampacity = corrected(leg, edition, in_free_air=wired_in_free_air(cable, study))
    if isinstance(found.current, Unknown) or isinstance(ampacity, Unknown):
        return ampacity
    ends = termination_limit(leg, cable, found.current, study, edition)
    if isinstance(ends, Unknown):
        return ends
    ampacity, ends = replace(ampacity, symbol="I_z"), replace(ends, symbol="I_end")
    formula = "min(I_z, I_end)"
    return derive(min, f"ampacity of the {leg.leg} leg with its terminals", "I_c", "A", formula,
                  ampacity, ends, source=edition.source("110.14(C)", "2023"))  # fmt: skip


def _judged(found: Guard, limit: Value, edition: Edition) -> Judgement:
    judgement = compare(found.current, at_most=limit)
    if judgement.verdict != "fail":
        return judgement
    assert isinstance(limit, Derived)
    upward = next_standard(limit, edition) if found.single else None
    if upward is None:
        return capped(judgement, edition.source("240.4", "2023"))
    allowed = compare(found.current, at_most=upward)
    if allowed.verdict == "pass":
        reason = "next standard rating above the ampacity is allowed (from memory)"
        return replace(allowed, verdict="note", reason=reason, source=edition.source("240.4(B)"))
    reason = f"above the next standard rating too, {upward.value:g} A"
    return capped(replace(judgement, reason=reason), edition.source("240.4", "2023"))
