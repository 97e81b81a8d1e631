"""The shape of the answer of `suggest --format json`; its JSON Schema is made from these types.

Keys are added, never renamed or removed. Imported only by the type checker, `schema` and tests.
"""

from typing import Annotated, Literal, TypedDict

from msgspec import Meta

from coordination.report.answer_types import FindingVerdict, Line, Severity

Margin = Annotated[float | None, Meta(description="1 or more passes; null: none, or not a number")]


class ChangeEntry(TypedDict):
    """One change: index is a place among the circuit's parts, counted from 0, as drawn."""

    sort: Literal["part", "device", "moved", "distance", "return", "cable", "length"]
    subject: str
    part: str | None
    was: str
    name: str | None
    index: int | None
    text: str | None
    words: str


class FailEntry(TypedDict):
    """A finding by name, with its sentence."""

    rule: str
    subject: str
    condition: str
    verdict: FindingVerdict
    severity: Severity
    margin: Margin
    line: Line
    because: str


class PairEntry(TypedDict):
    """A finding as drawn and with the changes; verdict_after null: it concerns it no more."""

    rule: str
    subject: str
    verdict_before: FindingVerdict
    verdict_after: FindingVerdict | None
    margin_before: Margin
    margin_after: Margin


class CureEntry(TypedDict):
    """A set of changes, confirmed by a check of the text that the diff makes."""

    changes: list[ChangeEntry]
    fixed: list[PairEntry]
    eroded: list[PairEntry]
    added: list[FailEntry]
    left: list[FailEntry]
    counts: dict[str, int]
    diff: str


class ExampleEntry(TypedDict):
    """Changes that do not cure, with what then fails first."""

    changes: list[ChangeEntry]
    fails: list[FailEntry]


class ConflictEntry(TypedDict):
    """Rules that cannot all hold within the bounds (none: not found out), and the least waiver."""

    rules: list[str]
    examples: list[ExampleEntry]
    waivers: list[FailEntry]
    waivers_yaml: str
    with_changes: list[ChangeEntry]


class LackEntry(TypedDict):
    """A place for which no part at hand qualifies, and what one would have to bear."""

    subject: str
    carries_A: float | None
    holds_V: float | None
    breaks_A: float | None
    state_too_little: list[str]
    unfit: int


class BoundsEntry(TypedDict):
    """Within which bounds was searched, and how far."""

    changes: int
    judged_at_most: int
    seconds: float
    shorten: float
    judged: int
    exhausted: bool
    words: list[str]


class SuggestAnswer(TypedDict):
    """What `fusewright suggest --format json` prints."""

    fusewright: str
    system: str
    file: str
    subject: str | None
    targets: list[FailEntry]
    unproven: list[FailEntry]
    cures: list[CureEntry]
    conflict: ConflictEntry | None
    lacking: list[LackEntry]
    not_editable: dict[str, str]
    bounds: BoundsEntry
