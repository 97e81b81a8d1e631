"""`seal FILE` and `check FILE --sealed`: what a job was checked with, and what changed since."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING, NoReturn

from coordination.checking import Request, judged, known_rules, prepare
from coordination.checking.bench import Bench
from coordination.checking.local import Local, configured
from coordination.cli.output import columns, emit
from coordination.errors import BadInput, Problem
from coordination.report.wording import clean, counted

if TYPE_CHECKING:
    from coordination.cli.quick import Check
    from coordination.rules.finding import Findings
    from coordination.sealing import Changes, Seal, Signed


def seal_file(request: Request, by: str, why: str, replaces: str, width: int | None) -> int:
    """Check a job and write its seal; gives the status of the check.

    Raises BadInput, CatalogueError: no verdict; another seal is there. OSError.
    """
    from coordination.cli.written import today, write_whole
    from coordination.report.summary import headline
    from coordination.sealing import Signed, seal_path, text_of_seal
    from coordination.sealing.as_text import SHORT

    if not by.strip():
        raise BadInput((Problem("--by", 0, 0, "nobody is named", "who seals: --by 'J. Tern'"),))
    findings, seal = sealed_now(request, Signed(by, why, today().isoformat()))
    path = seal_path(request.file)
    seal, said = _over(path, seal, replaces, width)
    write_whole(path, text_of_seal(seal).encode("utf-8"))
    holds = f"{counted(len(seal.parts), 'part')}, {counted(len(seal.packs), 'pack')}"
    written = f"{clean(path)} is written: {holds}, seal {seal.digest[:SHORT]}."
    emit(f"{headline(findings)}\n{said}{written}\n")
    return findings.exit_status


def _over(path: str, seal: Seal, replaces: str, width: int | None) -> tuple[Seal, str]:
    """The seal as it may be written, and what it replaces in words.

    Raises BadInput: a seal of another verdict is there, and was not named; or none can be told.
    """
    import msgspec

    from coordination.sealing import changes_between, read_seal
    from coordination.sealing.as_text import SHORT, changes_text, sealed_by
    from coordination.sealing.changes import replaced
    from coordination.sealing.stored import digest_of_seal

    if not os.path.lexists(path):
        if replaces:
            _refuse("--replaces", "there is no seal to replace")
        return seal, ""
    old = read_seal(path)
    changes = changes_between(old, seal)
    named = len(replaces) >= SHORT and old.digest.startswith(replaces.lower())
    if replaces and not named:
        _refuse("--replaces", f"the seal there is {old.digest[:SHORT]}, not {clean(replaces)}")
    if changes.other_verdicts and not named:
        emit(changes_text(changes, columns(width)).lstrip("\n"))
        what = f"the seal of {sealed_by(old)} has other verdicts; it was left as it is"
        _refuse(path, what, f"--replaces {old.digest[:SHORT]}, once you have seen what changed")
    seal = msgspec.structs.replace(seal, replaces=replaced(old))
    seal = msgspec.structs.replace(seal, digest=digest_of_seal(msgspec.to_builtins(seal)))
    said = f"replaces the seal {old.digest[:SHORT]} of {sealed_by(old)} (verdict {old.verdict})\n"
    return seal, said


def _refuse(where: str, what: str, allowed: str = "") -> NoReturn:
    raise BadInput((Problem(where, 0, 0, what, allowed),))


def sealed_now(request: Request, signed: Signed | None = None) -> tuple[Findings, Seal]:
    """The findings and the seal that they would have now. Raises BadInput, CatalogueError.

    A file that changes while it is checked has no verdict.
    """
    from coordination.reading.text import read_file
    from coordination.sealing import make_seal
    from coordination.sealing.hashes import of_bytes, of_file
    from coordination.sealing.make import NOBODY

    data = read_file(request.file)
    before = of_bytes(data)
    with Bench(request.catalogue, request.local) as bench:
        system, packs = prepare(request, bench, data)
        known_rules(request.rules, packs)
        findings = judged(request, system, packs)
        seal = make_seal(findings, request, bench, before, signed or NOBODY)
    if of_file(request.file) != before:
        _refuse(request.file, "the file changed while it was checked", "check it again")
    return findings, seal


def check_sealed(asked: Check) -> tuple[Findings, Changes, Request]:
    """The findings of a check with `--sealed`, and what has changed since the seal.

    Raises BadInput: no seal, one that cannot be used, or only a part of the job was asked for.
    """
    from coordination.sealing import changes_between, seal_path, stored_seal

    for option, value in (("--condition", asked.condition), ("--rule", asked.rules)):
        if value:
            _refuse(option, "a seal is of the whole job", f"--sealed without {option}")
    if asked.format in ("junit", "sarif"):
        _refuse("--format", f"{asked.format} has no place for it", "text, json, markdown")
    stored = stored_seal(asked.file)
    if stored is None:
        what = "there is no seal"
        _refuse(seal_path(asked.file), what, "fusewright seal FILE --by NAME writes one")
    local = configured(os.environ) + Local(asked.rules_from, asked.house_rules)
    request = Request(
        asked.file, asked.catalogue, packs=asked.packs, without=asked.without, local=local
    )
    findings, now = sealed_now(request)
    return findings, changes_between(stored, now), request
