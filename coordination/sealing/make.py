"""Makes the seal of a run: what it was checked with, and what was found."""

from __future__ import annotations

import math
import os
from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple, Protocol

import msgspec

from catalogue.digest import content_of, digest_of
from catalogue.parts import Part
from coordination import __version__
from coordination.checking import Request
from coordination.checking.local import Local
from coordination.model import System
from coordination.report.answer import problem_words
from coordination.rules.finding import Finding, Findings
from coordination.rules.host import PackHost
from coordination.rules.pack import Pack
from coordination.sealing import hashes
from coordination.sealing.seal import (
    FORMAT,
    Asked,
    Program,
    Replaced,
    RuleFile,
    Seal,
    SealedFile,
    SealedPack,
    SealedPart,
    SealedVerdict,
)
from coordination.sealing.stored import digest_of_seal


class Signed(NamedTuple):
    """Who seals, why, on which day (ISO date), and which seal this one takes the place of."""

    by: str
    why: str
    date: str
    replaces: Replaced | None = None


class Bench(Protocol):
    """What a seal needs of where the job was checked."""

    @property
    def host(self) -> PackHost: ...
    @property
    def catalogue(self) -> Revisions: ...


class Revisions(Protocol):
    """Knows the number of a part's revision, where parts are revised."""

    def revision(self, part_id: str, /) -> int | None: ...


#: Of the seal that a job would have now, to hold beside the one it has.
NOBODY = Signed("", "", "0000-00-00")


def make_seal(
    findings: Findings, request: Request, bench: Bench, sha256: str, signed: Signed = NOBODY
) -> Seal:
    """The seal of a run. Raises BadInput: a file of rules cannot be read.

    sha256 -- of the bytes of the system file that were checked
    """
    seal = Seal(
        format=FORMAT,
        system=_sound(findings.system.name),
        file=SealedFile(_sound(os.path.basename(request.file)), sha256),
        by=_sound(signed.by),
        why=_sound(signed.why),
        date=signed.date,
        replaces=signed.replaces,
        program=Program(__version__, hashes.of_program()),
        verdict=findings.verdict,
        counts=dict(findings.counts),  # type: ignore[arg-type]
        problems=[_sound(problem_words(each)) for each in findings.problems if each.incomplete],
        conditions=list(findings.studies),
        asked=Asked(list(map(_sound, request.packs)), list(map(_sound, request.without))),
        packs={each.card.name: _pack(each, request.local, bench) for each in findings.packs},
        rule_files=list(rule_files(request.local)),
        parts={part.id: _part(part, bench) for part in parts_of(findings.system)},
        verdicts=_verdicts(findings.findings),
        digest="",
    )
    return msgspec.structs.replace(seal, digest=digest_of_seal(msgspec.to_builtins(seal)))


def rule_files(local: Local) -> Iterator[RuleFile]:
    """The files of rules with their hashes. Raises BadInput: one cannot be read."""
    for path in local.rules_from:
        yield RuleFile("rules-from", _sound(os.path.basename(path)), hashes.of_file(path))
    for path in local.house_rules:
        yield RuleFile("house-rules", _sound(os.path.basename(path)), hashes.of_file(path))


def parts_of(system: System) -> Iterable[Part]:
    """Every part that the system uses, each once, by id."""
    found: dict[str, Part] = {}
    holders: list[Any] = [*system.sources.values(), *system.busbars.values()]
    for element in system.elements():
        holders += (element, element.return_path)
    for holder in holders:
        if holder.part is not None:
            found[holder.part.id] = holder.part
    return tuple(found[part_id] for part_id in sorted(found))


def _part(part: Part, bench: Bench) -> SealedPart:
    content = {name: _sound(text) for name, text in content_of(part).items()}
    revision = bench.catalogue.revision(part.id) if part.origin == "shop" else None
    return SealedPart(part.origin, revision, digest_of(content), content)


def _pack(pack: Pack, local: Local, bench: Bench) -> SealedPack:
    """An installed pack with its files; the hash of a rule file stands among these."""
    card = pack.card
    own = _of_rule_file(card.name, local)
    sha256 = "" if own else hashes.of_pack(bench.host, card.name)
    return SealedPack(card.version, card.edition, card.in_force, len(pack.rules), sha256)


def _of_rule_file(name: str, local: Local) -> bool:
    from coordination.rules.house.pack import NAME

    stems = (os.path.splitext(os.path.basename(path))[0] for path in local.rules_from)
    return (name == NAME and bool(local.house_rules)) or name in {
        stem.lower().replace("-", "_") for stem in stems
    }


def _verdicts(findings: Iterable[Finding]) -> dict[str, dict[str, SealedVerdict]]:
    found: dict[str, dict[str, SealedVerdict]] = {}
    for each in findings:
        margin = each.margin
        if margin is not None and not math.isfinite(margin):
            margin = None
        verdict = SealedVerdict(each.verdict, each.condition, margin)
        found.setdefault(each.rule, {})[each.subject] = verdict
    return found


def _sound(text: str) -> str:
    """The text without lone surrogates, which no UTF-8 file can hold: names of odd bytes."""
    return text.encode("utf-8", "backslashreplace").decode("utf-8")
