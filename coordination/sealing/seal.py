"""The shape of a seal; the file's JSON Schema is made from these types alone.

Later versions of the same format may add keys; a change of meaning raises FORMAT.
"""

from __future__ import annotations

from typing import Annotated, Final, Literal

from msgspec import Meta, Struct, field

FORMAT: Final = 1

Hash = Annotated[str, Meta(pattern="^[0-9a-f]{64}$", description="SHA-256, hexadecimal")]
FindingVerdict = Literal["pass", "fail", "unproven", "note", "waived"]
RunVerdict = Literal["pass", "fail", "unproven"]
Count = Annotated[int, Meta(ge=0)]


class SealedFile(Struct, frozen=True):
    """The system file: its name without folders, and its content."""

    name: str
    sha256: Hash


class Program(Struct, frozen=True):
    """The program that checked; the hash is of its Python files."""

    version: str
    sha256: Hash


class RuleFile(Struct, frozen=True):
    """A file of rules that no installed pack brings."""

    kind: Literal["rules-from", "house-rules"]
    name: str
    sha256: Hash


class SealedPack(Struct, frozen=True):
    """A pack that ran; the hash is of the files it is installed as, empty where there are none."""

    version: str
    edition: str
    in_force: str
    rules: Count
    sha256: Annotated[str, Meta(pattern="^([0-9a-f]{64})?$")]


class SealedPart(Struct, frozen=True):
    """A part the system uses: where it came from, and what it stated.

    revision -- its number in the shop's catalogue; null where there is none
    content  -- every stated field as it was written, by the column of a sheet
    """

    origin: Annotated[str, Meta(description="file, shop or generic")]
    revision: int | None
    sha256: Hash
    content: dict[str, str]


class SealedVerdict(Struct, frozen=True):
    """One rule's verdict on one subject, in the worst condition; margin as in the answer."""

    verdict: FindingVerdict
    condition: str
    margin: float | None = None


class Replaced(Struct, frozen=True):
    """The seal that this one took the place of."""

    digest: Hash
    date: str
    by: str
    verdict: RunVerdict


class Asked(Struct, frozen=True):
    """What the command line asked for beside the file: packs run as well, packs left out."""

    packs: list[str] = []
    without: list[str] = []


class Seal(Struct, frozen=True, kw_only=True):
    """What a job was checked with and what was found.

    digest -- SHA-256 of all the rest: keys sorted, ASCII, no blanks. Whoever changes the seal can
              make it anew; keep it on paper to show that nobody did
    """

    format: Annotated[int, Meta(ge=1)] = field(name="fusewright_seal")
    system: str
    file: SealedFile
    by: str
    why: str
    date: Annotated[str, Meta(pattern="^[0-9]{4}-[0-9]{2}-[0-9]{2}$")]
    replaces: Replaced | None
    program: Program
    verdict: RunVerdict
    counts: dict[FindingVerdict, Count]
    problems: Annotated[list[str], Meta(description="what kept the run from checking everything")]
    conditions: list[str]
    asked: Asked
    packs: dict[str, SealedPack]
    rule_files: list[RuleFile]
    parts: dict[str, SealedPart]
    verdicts: Annotated[
        dict[str, dict[str, SealedVerdict]],
        Meta(description="by rule (pack/rule-name), then by subject"),
    ]
    digest: Hash
