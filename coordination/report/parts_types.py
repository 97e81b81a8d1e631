"""The shapes of what `fusewright parts` prints for machines; the JSON Schemas are made of them.

Keys are added, never renamed or removed. Imported only by the type checker, by `schema` and by
tests.
"""

from typing import Annotated, Any, Literal, TypedDict

from msgspec import Meta

Cell = Annotated[str, Meta(description="as in a cell of a sheet; empty: not stated")]
Place = Annotated[int, Meta(ge=0, description="1-based; 0: the whole file")]


class PartsFile(TypedDict):
    """What `parts export FILE.json` writes, `import` reads and `find --format json` prints.

    Each part has id and kind, and its fields as a system file's `parts:` states them.
    """

    format: Literal["fusewright parts"]
    version: Literal[1]
    parts: list[dict[str, Any]]


class UseEntry(TypedDict):
    """One place that names the part; own: the file's own part of that id is meant."""

    file: str
    line: Place
    column: Place
    where: str
    own: bool


class BrokenEntry(TypedDict):
    """A file that could not be read: the part may be named there too."""

    file: str
    line: Place
    column: Place
    what: str


class UsesAnswer(TypedDict):
    """What `parts where-used --format json` prints."""

    part: str
    uses: list[UseEntry]
    broken: list[BrokenEntry]
    systems: Annotated[int, Meta(description="system files that were read")]
    others: Annotated[int, Meta(description="YAML files that are no system files")]


class DoubtEntry(TypedDict):
    """A figure that is hard to believe, what was expected, and by whom."""

    part: str
    path: str
    found: str
    expected: str
    source: str


class DoubtsAnswer(TypedDict):
    """What `parts doubts --format json` prints."""

    looked_at: int
    doubts: list[DoubtEntry]


class ChangedField(TypedDict):
    """One field of a part that an import would change."""

    field: str
    before: Cell
    after: Cell


class ChangedPart(TypedDict):
    """One part that an import would change."""

    id: str
    fields: list[ChangedField]


class ImportAnswer(TypedDict):
    """What `parts import --dry-run --format json` prints."""

    new: list[str]
    changed: list[ChangedPart]
    same: int
    doubts: list[DoubtEntry]
