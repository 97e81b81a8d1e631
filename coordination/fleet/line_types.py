"""The shape of the lines of `recheck --format jsonl`; their JSON Schema is made from these types.

Imported only by the type checker, by `schema` and by tests.
"""

from typing import Annotated, Literal, NotRequired, TypedDict

from msgspec import Meta

from coordination.report.answer_types import Counts, Verdict

#: checked: there is a verdict. unusable: the file cannot be used. failed: the program has a fault
#: of its own. died: the process that checked it died. hung: it took longer than a job may.
OutcomeName = Literal["checked", "unusable", "failed", "died", "hung"]


class SealLine(TypedDict):
    """How a job stands to its seal; moves are counted by kind, as in the answer of a check."""

    state: Literal["none", "same", "changed", "unusable"]
    date: str
    by: str
    verdict: Annotated[str, Meta(description="at the seal; empty: none")]
    causes: list[str]
    moves: dict[str, int]
    parts: Annotated[list[str], Meta(description="parts that state something else")]
    newly: Annotated[
        list[str], Meta(description="at most ten new fails and unproven: rule, subject")
    ]
    problem: str


class JobLine(TypedDict):
    """One job; verdict, counts and status are null unless it was checked."""

    file: str
    outcome: OutcomeName
    system: str | None
    verdict: Verdict | None
    status: Annotated[int | None, Meta(description="exit status of a check")]
    counts: Counts | None
    problems: list[str]
    seal: SealLine | None


class Summary(TypedDict):
    """The last line: what all others add up to."""

    jobs: int
    verdicts: dict[str, int]
    outcomes: dict[str, int]
    seals: dict[str, int]
    causes: dict[str, int]
    moves: Annotated[dict[str, int], Meta(description="jobs with a move of that kind")]
    parts: Annotated[dict[str, int], Meta(description="jobs in which a part has changed")]
    skipped: Annotated[int, Meta(description="YAML files that are no system file")]
    unaffected: Annotated[int, Meta(description="jobs that do not use the changed part")]
    unreadable: list[str]
    not_files: list[str]
    status: int


class Line(TypedDict):
    """A line of the answer: a job, or the summary at the end."""

    job: NotRequired[JobLine]
    summary: NotRequired[Summary]
