"""The shape of `outage --format json`; its JSON Schema is made from these types alone.

Keys are added, never renamed or removed.
"""

from typing import Annotated, Literal, NotRequired, TypedDict

from msgspec import Meta

from coordination.report.answer_types import Amps

Kind = Literal[
    "device",
    "channel",
    "switch",
    "contactor",
    "trip",
    "joint trip",
    "source",
    "converter",
    "all switches",
]


class SupplyEntry(TypedDict):
    """Equipment that sources which limit their current feed alone, with no battery.

    state is carried where they give what is drawn, starved where they do not. sources are those
    that count: a converter whose own input is starved does not.
    """

    equipment: str
    state: Literal["carried", "starved", "unknown"]
    sources: list[str]
    limit_A: Amps
    drawn_A: Amps
    missing: list[str]


class LeftEntry(TypedDict):
    """A charging source that runs on without a battery, and the loads beside it."""

    source: str
    beside: list[str]


class Leaves(TypedDict):
    """What is so in a condition before any event, or what an event changes in it.

    dark: equipment that no source reaches (any more). stopped: converters whose input is dark.
    isolated: batteries with nothing else beside them. parted: sources that were joined, by the
    pieces they are in now.
    """

    dark: list[str]
    stopped: list[str]
    supplied: list[SupplyEntry]
    left: list[LeftEntry]
    isolated: list[str]
    parted: list[list[str]]


class EventEntry(TypedDict):
    """A single event: what it opens and which sources it takes out, and what it changes.

    stays_live: equipment that stays live; of the event that every switch is off.
    """

    kind: Kind
    name: str
    opens: list[str]
    loses: list[str]
    changes: Leaves
    stays_live: NotRequired[list[str]]


class ConditionOutages(TypedDict):
    """One condition: as it is drawn, then every single event."""

    as_drawn: Leaves
    events: list[EventEntry]


class AlwaysLive(TypedDict):
    """Points that no switch turns off, as drawn: fed by a battery; or by other sources only."""

    battery: list[str]
    limited: list[str]


class OutageAnswer(TypedDict):
    """What goes dark by any single event."""

    fusewright: str
    system: str
    file: Annotated[str, Meta(description="the system file as given")]
    always_live: AlwaysLive
    conditions: dict[str, ConditionOutages]
