"""The shape of the answer of `compare --format json`; its JSON Schema is made from these types.

Keys are added, never renamed or removed. Imported only by the type checker, `schema` and tests.
"""

from typing import Annotated, Literal, TypedDict

from msgspec import Meta

from coordination.report.answer_types import Verdict

How = Literal[
    "new fail", "newly unproven", "newly waived", "eroded", "vanished", "other", "appeared",
    "settled", "cured", "improved",
]  # fmt: skip
Stands = Annotated[str, Meta(description="a verdict; empty: not judged")]
Margin = Annotated[float | None, Meta(description="null: none, or not judged")]


class SideEntry(TypedDict):
    """One side: where it came from, and its verdict."""

    label: str
    system: str
    file: str
    verdict: Verdict


class MoveEntry(TypedDict):
    """What happened to one rule's verdict on one subject, which has its new name."""

    how: How
    rule: str
    subject: str
    before: Stands
    after: Stands
    margin_before: Margin
    margin_after: Margin
    because: Annotated[str, Meta(description="why it is what it is now; empty where not kept")]


class CurrentEntry(TypedDict):
    """A quantity at a point or element that is another; null: not known."""

    condition: str
    where: str
    quantity: Annotated[str, Meta(description="as in the answer of check: duty_A, load_A ...")]
    before: float | None
    after: float | None


class FieldEntry(TypedDict):
    """A field as it was and as it is; empty: not stated, or not there."""

    field: str
    before: str
    after: str


class AlteredEntry(TypedDict):
    """A thing or part that came, went, or states something else."""

    how: Literal["added", "removed", "changed"]
    kind: str
    name: str
    fields: list[FieldEntry]


class RenameEntry(TypedDict):
    """A thing that seems to be the same under another name: a guess."""

    before: str
    after: str


class ComparisonAnswer(TypedDict):
    """What differs between two sides; null: one side does not keep it, so it was not compared."""

    fusewright: str
    before: SideEntry
    after: SideEntry
    threshold: float
    status: Annotated[int, Meta(description="exit status: 1 new fail, 3 newly unproven, 0")]
    moves: list[MoveEntry]
    currents: list[CurrentEntry] | None
    things: list[AlteredEntry] | None
    parts: list[AlteredEntry] | None
    renames: list[RenameEntry]
    packs: list[FieldEntry]
    conditions: list[FieldEntry]
    newly_unchecked: list[str]
