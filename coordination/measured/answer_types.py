"""The shape of `measured --format json`; its JSON Schema is made from these types alone.

Keys are added, never renamed or removed. Imported only by the type checker, by `schema` and by
tests.
"""

from typing import Annotated, Literal, TypedDict

from msgspec import Meta

from coordination.report.answer_types import Counts, Line, Step, Verdict

Comparing = Literal[
    "within",
    "outside",
    "over the limit",
    "cannot tell",
    "within the limit",
    "judged anew",
    "no prediction",
]
End = Annotated[float | None, Meta(description="in the SI unit named (°C); null: not predicted")]


class MeterEntry(TypedDict):
    """An instrument; stated is false where common practice stands for its accuracy."""

    accuracy: Annotated[float, Meta(description="share of the reading; of a thermometer in K")]
    resolution: Annotated[
        float | None, Meta(description="last digit [SI]; null: that of each reading as written")
    ]
    stated: bool
    instrument: str


class Meters(TypedDict):
    """The instruments."""

    voltage: MeterEntry
    current: MeterEntry
    temperature: MeterEntry


class Ends(TypedDict):
    """A band of resistances, in ohms."""

    min_ohm: float
    max_ohm: float


class ResistanceEntry(TypedDict):
    """A measured resistance: its value, what the meters leave open, and by what it was judged.

    spread_assumed is true where the record states no spread and the usual one was taken.
    """

    value_ohm: float
    by_meters: Ends
    judged_by: Ends
    spread_under: float
    spread_over: float
    spread_assumed: bool
    steps: list[Step]


class ComparedEntry(TypedDict):
    """One measured value; low and high are the prediction's ends.

    error is what the meter leaves open to either side. within: as predicted, the error allowed;
    outside: against the prediction; over the limit: whatever the error; cannot tell: the limit lies
    within it; within the limit: nobody predicted it; judged anew: a resistance that took the place
    of the file's; no prediction: and no limit either.
    """

    what: str
    subject: str
    line: Line
    unit: str
    value: float
    error: float
    low: End
    high: End
    limit: Annotated[float | None, Meta(description="null: nothing says")]
    verdict: Comparing


class ChangeEntry(TypedDict):
    """A verdict that the measured resistances changed; an empty one: no finding."""

    rule: str
    subject: str
    line: Line
    before: str
    after: str
    because: str


class MeasuredAnswer(TypedDict):
    """What `fusewright measured FILE RECORD.yaml --format json` prints.

    verdict and counts are those of the system with the measured resistances; status is the exit
    status, which also tells of values past a limit or against a prediction.
    """

    fusewright: Annotated[str, Meta(description="version of the program")]
    system: str
    file: str
    record: str
    date: str
    by: str
    condition: str
    verdict: Verdict
    status: Literal[0, 1, 3]
    counts: Counts
    meters: Meters
    resistances: dict[str, ResistanceEntry]
    compared: list[ComparedEntry]
    changes: list[ChangeEntry]
    edits: Annotated[list[str], Meta(description="what to write to keep the resistances")]
    cautions: list[str]
