"""The shape of the machine-readable answer; its JSON Schema is made from these types alone.

Packs, reports and outside scripts build on it: keys are added, never renamed or removed. Imported
only by the type checker, by `schema` and by tests, so that a check does not pay for msgspec.
"""

from typing import Annotated, Literal, NotRequired, TypedDict

from msgspec import Meta

Verdict = Literal["pass", "fail", "unproven"]
FindingVerdict = Literal["pass", "fail", "unproven", "note", "waived"]
Severity = Literal["fire", "damage", "outage", "paperwork"]
Basis = Literal["physics", "law", "standard", "practice"]
Amps = Annotated[float | None, Meta(description="in amperes; null: unknown")]
Volts = Annotated[float | None, Meta(description="in volts; null: unknown")]
Seconds = Annotated[float | None, Meta(description="in seconds; null: unknown")]
Line = Annotated[int, Meta(ge=0, description="line in the system file, from 1; 0: none")]

Counts = TypedDict(
    "Counts", {"pass": int, "fail": int, "unproven": int, "note": int, "waived": int}
)
Counts.__doc__ = "Number of findings of each verdict, whatever part of them is shown."


class PackEntry(TypedDict):
    """A pack that ran: its version, edition and number of rules.

    applies is false where the pack does not speak of this system, null where that cannot be told
    or nothing was asked of it: then none of its rules was judged, and scope_reason says why.
    """

    name: str
    version: str
    edition: str
    rules: int
    title: str
    in_force: Annotated[str, Meta(description="a date, or undated")]
    jurisdiction: str
    status: Basis
    applies: bool | None
    scope_reason: str


class Point(TypedDict):
    """Where conductors meet: prospective fault currents, highest voltage, loop time constant."""

    fault_max_A: Amps
    fault_min_A: Amps
    voltage_max_V: Volts
    time_constant_s: Seconds
    load_voltage_V: Volts


class ElementEntry(TypedDict):
    """One part at its place in a circuit.

    fault_min_A is the min-bound current through it for a bolted fault at the far end of what it
    protects.
    """

    part: str | None
    kind: str
    duty_A: Amps
    load_A: Amps
    fault_min_A: Amps


class ConditionEntry(TypedDict):
    """Every point and element in one operating condition, by name."""

    points: dict[str, Point]
    elements: dict[str, ElementEntry]


class Found(TypedDict):
    """A number in the SI unit named (temperatures in °C); null: unknown."""

    value: float | None
    unit: str


class Required(TypedDict):
    """The limit, and how the number found must stand to it; null: unknown."""

    relation: Literal["<=", ">="]
    value: float | None
    unit: str


Step = TypedDict(
    "Step",
    {
        "quantity": str,
        "symbol": str,
        "formula": str,
        "with": str,
        "value": float | None,
        "unit": str,
        "source": str,
    },
)
Step.__doc__ = "One number of a derivation; formula and with are empty for a given value."


class FindingEntry(TypedDict):
    """One rule's verdict on one subject, in the worst condition.

    margin is allowed / found for upper limits, found / required for lower ones: at least 1 passes.
    """

    rule: str
    subject: str
    condition: str
    verdict: FindingVerdict
    severity: Severity
    found: Found | None
    required: Required | None
    margin: float | None
    missing: list[str]
    line: Line
    source: str
    because: str
    steps: list[Step]
    basis: Annotated[Basis, Meta(description="what the rule rests on")]


class SectionEntry(TypedDict):
    """What a pack adds to the report: paragraphs, then one table; it changes no verdict."""

    pack: str
    title: str
    paragraphs: list[str]
    headings: list[str]
    rows: list[list[str]]


class Differing(TypedDict):
    """Something that is not as it was; empty where it was, or is, not there."""

    what: str
    was: str
    now: str


class PartChanged(TypedDict):
    """A part that states something else than at the seal, came, or went."""

    id: str
    how: str
    fields: list[Differing]


class VerdictMoved(TypedDict):
    """A verdict or margin that is not as at the seal; empty verdict: not judged."""

    how: str
    rule: str
    subject: str
    was: str
    now: str
    was_margin: float | None
    now_margin: float | None


class SealEntry(TypedDict):
    """What has changed since the seal; causes are what a verdict rests on."""

    date: str
    by: str
    why: str
    digest: str
    verdict: Verdict
    changed: bool
    causes: list[str]
    file: list[Differing]
    program: list[Differing]
    packs: list[Differing]
    rules: list[Differing]
    asked: list[Differing]
    conditions: list[Differing]
    problems: list[Differing]
    parts: list[PartChanged]
    moves: list[VerdictMoved]


class Answer(TypedDict):
    """What `fusewright check FILE --format json` prints."""

    fusewright: Annotated[str, Meta(description="version of the program")]
    system: str
    file: str
    verdict: Verdict
    counts: Counts
    packs: list[PackEntry]
    problems: Annotated[list[str], Meta(description="what kept the run from checking everything")]
    conditions: dict[str, ConditionEntry]
    findings: list[FindingEntry]
    sections: list[SectionEntry]
    restricted: Annotated[
        list[str], Meta(description="how the command line made the run differ from the file's own")
    ]
    seal: NotRequired[
        Annotated[SealEntry, Meta(description="with --sealed: what changed since the seal")]
    ]
