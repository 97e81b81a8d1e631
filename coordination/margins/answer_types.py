"""The shape of the answer of `margins --format json`; its JSON Schema is made from these types.

Keys are added, never renamed or removed. Imported only by the type checker, `schema` and tests.
"""

from typing import Annotated, Literal, TypedDict

from msgspec import Meta

from coordination.report.answer_types import Line, Verdict

Stands = Annotated[str, Meta(description="pass, fail, unproven or note; empty: no finding")]
Figure = Annotated[float, Meta(description="in the unit of the entry")]


class PairEntry(TypedDict):
    """A rule, and what it is asked about."""

    rule: str
    subject: str


class FlipEntry(TypedDict):
    """A verdict that is another beyond a value of an input.

    value was judged and has the better of both verdicts, text shows it; judged are two values close
    together, with the verdict before and the one after.
    """

    rule: str
    subject: str
    before: Stands
    after: Stands
    direction: Literal["above", "below"]
    better: Annotated[bool, Meta(description="whether the verdict becomes a better one")]
    value: Figure
    text: str
    judged: Annotated[list[float], Meta(min_length=2, max_length=2)]


class FurtherOff(TypedDict):
    """Changes that were seen further off and not narrowed down."""

    better: int
    worse: int


class InputEntry(TypedDict):
    """One uncertain input, where it was searched, and the flips found there."""

    what: str
    datum: str
    line: Line
    unit: Annotated[str, Meta(description="SI, or °C; empty: a pure number")]
    now: Figure
    searched: Annotated[list[float], Meta(min_length=2, max_length=2)]
    flips: list[FlipEntry]
    further_off: FurtherOff


StretchEntry = TypedDict(
    "StretchEntry",
    {"verdict": Verdict, "from": float | None, "to": float | None, "choice": str},
)
StretchEntry.__doc__ = "Values of a missing datum that decide alike; null: as far as was tried."


class DatumEntry(TypedDict):
    """A missing datum, the findings that lack it, and what it would decide of those alone."""

    datum: str
    phrases: list[str]
    alone: list[PairEntry]
    with_others: list[PairEntry]
    unit: str
    decides: list[StretchEntry]


class TogetherEntry(TypedDict):
    """Several data, and the findings that lack nothing else."""

    data: list[str]
    settles: list[PairEntry]


class MarginsAnswer(TypedDict):
    """Where single inputs flip verdicts, and what would settle what is unproven."""

    fusewright: str
    system: str
    file: str
    verdict: Verdict
    subject: str | None
    checks: int
    inputs: list[InputEntry]
    zero: Annotated[list[str], Meta(description="inputs that are 0, which were not searched")]
    left_out: Annotated[list[str], Meta(description="inputs left out at the limit of checks")]
    missing: list[DatumEntry]
    together: list[TogetherEntry]
