"""The pack's card and its hooks; one line here for each rule."""

from __future__ import annotations

from collections.abc import Sequence

from coordination.rules import PackCard, Rule, hookimpl
from fusewright_budget import (
    battery_balance,
    battery_share,
    charge_limit,
    charging_source,
    equalising_current,
    inverter_output,
    run_time,
    shore_overload,
    start_balance,
)

CARD = PackCard(
    name="budget",
    title="Energy and shore budget",
    api=1,
    version="0.1.0",
    edition="first edition",
    in_force="2026-11-25",
    status="practice",
    scope="whether banks last as long as is asked, and whether what charges, shares and equalises "
    "stays within what each part states",
    not_covered=(
        "the taper at the end of a charge",
        "self-discharge and ageing of batteries",
        "settings of chargers and regulators",
        "on the AC side: bonding and earthing, ground-fault devices, polarity, transfer interlock",
    ),
)

RULES: tuple[Rule, ...] = (
    battery_balance.battery_balance,
    battery_share.battery_share,
    charge_limit.charge_limit,
    charging_source.charging_source,
    equalising_current.equalising_current,
    inverter_output.inverter_output,
    run_time.run_time,
    shore_overload.shore_overload,
    start_balance.start_balance,
)


@hookimpl
def fusewright_pack() -> PackCard:
    """The pack's card."""
    return CARD


@hookimpl
def fusewright_rules() -> Sequence[Rule]:
    """The pack's rules."""
    return RULES
