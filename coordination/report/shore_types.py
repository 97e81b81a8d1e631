"""The shape of `shore --format json`; its JSON Schema is made from these types alone."""

from typing import Annotated, TypedDict

from msgspec import Meta

from coordination.report.answer_types import Amps, Seconds, Step, Volts

Hertz = Annotated[float | None, Meta(description="in hertz; null: not stated")]


class InletEntry(TypedDict):
    """One inlet in one condition; currents of the mains, but into_bank_A (DC).

    input_limit_A is what to set, counting all that comes in; time_s is a lower bound.
    """

    supply: str | None
    voltage_V: Volts
    frequency_Hz: Hertz
    may_A: Amps
    loads_A: dict[str, Amps]
    chargers_A: dict[str, Amps]
    together_A: Amps
    drawn_as_set_A: Amps
    input_limit_A: Amps
    left_for_charging_A: Amps
    into_bank_A: Amps
    time_s: Seconds
    missing: list[str]
    steps: list[Step]


class OutputEntry(TypedDict):
    """The AC output of an inverter: what it gives, and what protects its conductors."""

    rated_A: Amps
    surge_A: Amps
    breaker_A: Amps
    conductor_A: Amps
    missing: list[str]


class ShoreAnswer(TypedDict):
    """What `fusewright shore FILE --format json` prints; an inlet that is not in is left out."""

    fusewright: Annotated[str, Meta(description="version of the program")]
    system: str
    file: str
    conditions: dict[str, dict[str, InletEntry]]
    inverters: dict[str, OutputEntry]
    not_checked: list[str]
