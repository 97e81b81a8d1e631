"""The shape of `energy --format json`; its JSON Schema is made from these types alone."""

from typing import Annotated, TypedDict

from msgspec import Meta

from coordination.report.answer_types import Amps, Seconds, Step

Coulombs = Annotated[float | None, Meta(description="in ampere seconds; null: unknown")]
Joules = Annotated[float | None, Meta(description="in joules; null: unknown")]
Share = Annotated[float | None, Meta(description="a pure number; null: unknown")]


class ChargeRange(TypedDict):
    """A charge as rated, and its bounds."""

    least: Coulombs
    nominal: Coulombs
    most: Coulombs


class CurrentRange(TypedDict):
    """A current, and its bounds."""

    least: Amps
    nominal: Amps
    most: Amps


class TimeRange(TypedDict):
    """A time as rated, and its bounds."""

    least: Seconds
    nominal: Seconds
    most: Seconds


class LoadEntry(TypedDict):
    """One load of a bank."""

    running_A: Amps
    share: Share
    duty: Share
    average_A: CurrentRange
    at_low_voltage_A: Amps


class RunEntry(TypedDict):
    """One way to draw from a bank, and how long it lasts."""

    drawn: str
    current_A: CurrentRange
    time_s: TimeRange
    missing: list[str]
    steps: list[Step]


class RechargeEntry(TypedDict):
    """Filling a bank; time_s is a lower bound, without the taper."""

    sources: list[str]
    gives_A: Amps
    into_bank_A: Amps
    time_s: Seconds
    missing: list[str]
    steps: list[Step]


class BatteryEntry(TypedDict):
    """One battery of a bank: its share of the full load, and what it is charged with."""

    share_A: Amps
    of_average: Share
    charged_with_A: Amps
    may_be_charged_with_A: Amps
    joined_full_A: Annotated[Amps, Meta(description="at first, it full, the others at low charge")]
    joined_apart_A: Annotated[Amps, Meta(description="at first, resting voltages 0.1 V apart")]


class BankEntry(TypedDict):
    """One bank in one condition."""

    usable_As: ChargeRange
    usable_J: Joules
    loads: dict[str, LoadEntry]
    runs: list[RunEntry]
    recharges: list[RechargeEntry]
    batteries: dict[str, BatteryEntry]


class SupplyEntry(TypedDict):
    """What is asked of a source or drawn beside a converter, and what may be given for hours."""

    asked_A: Amps
    gives_A: Amps
    missing: list[str]


class FlowEntry(TypedDict):
    """One direction of an equalising current, at the moment of closing."""

    giving: list[str]
    taking: list[str]
    current_A: Amps
    time_constant_s: Seconds
    batteries_A: dict[str, Amps]
    through_A: dict[str, Amps]
    missing: list[str]
    steps: list[Step]


class EnergyCondition(TypedDict):
    """Banks, sources, converters and links of one condition, by name."""

    banks: dict[str, BankEntry]
    sources: dict[str, SupplyEntry]
    converters: dict[str, SupplyEntry]
    links: dict[str, list[FlowEntry]]


class EnergyAnswer(TypedDict):
    """What `fusewright energy FILE --format json` prints."""

    fusewright: Annotated[str, Meta(description="version of the program")]
    system: str
    file: str
    conditions: dict[str, EnergyCondition]
    not_computed: list[str]
