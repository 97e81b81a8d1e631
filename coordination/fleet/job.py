"""Checks one job at a worker's bench: its line for the list, and what that rests on."""

from __future__ import annotations

import os
import stat
from collections import Counter
from typing import Any, Final

from catalogue.errors import CatalogueError
from coordination.checking import Request, judged, prepare
from coordination.checking.bench import Bench
from coordination.errors import BadInput, FusewrightError
from coordination.fleet.looking import is_system
from coordination.fleet.setting import Order, Outcome, Setting
from coordination.reading.text import read_file
from coordination.report.input_errors import input_errors
from coordination.report.wording import clean
from coordination.rules.finding import Findings
from coordination.sealing import Changes, Seal, changes_between, make_seal, read_seal, seal_path
from coordination.sealing.hashes import of_bytes, of_file, of_pack
from coordination.sealing.make import parts_of

#: Problems and new fails of a job that its line names.
MOST_NAMED: Final = 10
#: What stands for a file that is no job of this run; it is counted, not listed.
SKIPPED: Final = "skipped"
UNAFFECTED: Final = "unaffected"


def do(order: Order, setting: Setting, bench: Bench) -> Outcome:
    """Check the file of an order. Raises nothing but what is no Exception."""
    try:
        return _do(order, setting, bench)
    except BadInput as error:
        problems = input_errors(error.problems).splitlines()[: len(error.problems)]
        return _no_verdict(order, "unusable", *problems)
    except (FusewrightError, CatalogueError, OSError) as error:
        return Outcome(order.number, unusable(order.path, error))
    except Exception as error:
        what = f"a fault of fusewright's own ({type(error).__name__}: {error})"
        return _no_verdict(order, "failed", clean(what))


def _do(order: Order, setting: Setting, bench: Bench) -> Outcome:
    path = order.path
    if not stat.S_ISREG(os.stat(path).st_mode):
        return _aside(order, SKIPPED)
    data = read_file(path)
    seal = seal_path(path)
    sealed = os.path.lexists(seal)
    # What was sealed is a job, whatever has become of it.
    if not (order.named or sealed or is_system(data)):
        return _aside(order, SKIPPED)
    bench.catalogue.begin()
    if setting.changed_part and not may_name(data, setting.changed_part):
        return _aside(order, UNAFFECTED)
    begun = {
        "basis": setting.basis,
        "file": of_bytes(data),
        "seal": of_file(seal) if sealed else "",
    }
    if order.key is not None and _holds(order.key, begun, setting, bench):
        return Outcome(order.number, {}, order.key, kept=True)
    return _checked(order, setting, bench, data, begun)


def _checked(
    order: Order, setting: Setting, bench: Bench, data: bytes, begun: dict[str, Any]
) -> Outcome:
    request = Request(
        order.path,
        setting.catalogue,
        packs=setting.packs,
        without=setting.without,
        local=setting.local,
        lenient=True,
    )
    bench.catalogue.begin()
    system, packs = prepare(request, bench, data)
    left = {problem.about for problem in packs.problems if problem.kind == "pack"}
    request = request._replace(without=tuple(name for name in setting.without if name in left))
    if setting.changed_part and all(
        part.id != setting.changed_part for part in parts_of(system)
    ):
        return _aside(order, UNAFFECTED)
    looked = sorted(bench.catalogue.looked)
    findings = judged(request, system, packs)
    line = _line(order, findings, _against(order.path, findings, request, bench, begun))
    if any(problem.kind == "rule" and problem.incomplete for problem in findings.problems):
        # A rule that took too long may be quicker the next time.
        return Outcome(order.number, line)
    key = begun | {
        "looked": looked,
        "parts": _parts_digest(looked, bench),
        "packs": {name: _pack_digest(name, bench) for name in system.packs},
        "until": bench.host.next_edition(system.packs),
    }
    return Outcome(order.number, line, key)


def may_name(data: bytes, part_id: str) -> bool:
    """Whether a file may name a part: literally, or by escapes that only reading takes apart."""
    if b"\\" in data or b"\0" in data or " " in part_id:
        return True
    return part_id.encode("utf-8", "surrogateescape") in data


def _holds(key: dict[str, Any], begun: dict[str, Any], setting: Setting, bench: Bench) -> bool:
    """Whether nothing has changed of what a job was checked with the last time."""
    if any(key.get(name) != value for name, value in begun.items()):
        return False
    if key["until"] and setting.today >= key["until"]:
        return False
    if any(_pack_digest(name, bench) != digest for name, digest in key["packs"].items()):
        return False
    if setting.changed_part and setting.changed_part not in key["looked"]:
        return False
    return bool(_parts_digest(key["looked"], bench) == key["parts"])


def _pack_digest(name: str, bench: Bench) -> str:
    return of_pack(bench.host, name.partition("@")[0])


def _parts_digest(looked: list[str], bench: Bench) -> str:
    """The hash of what the catalogue says of these ids, one after another."""
    said = (f"{part_id}={bench.catalogue.digest(part_id)}" for part_id in looked)
    return of_bytes("\n".join(said).encode())


def _against(
    path: str, findings: Findings, request: Request, bench: Bench, begun: dict[str, Any]
) -> dict[str, Any]:
    """How the job stands to its seal, as `line_types.SealLine`."""
    if not begun["seal"]:
        return _seal_line("none")
    try:
        stored = read_seal(seal_path(path))
    except BadInput as error:
        return _seal_line("unusable", problem=clean(error.problems[0].what))
    now = make_seal(findings, request, bench, begun["file"])
    return _held(stored, changes_between(stored, now))


def _held(stored: Seal, changes: Changes) -> dict[str, Any]:
    counts = Counter(move.how for move in changes.moves)
    grave = [*changes.moved("new fail"), *changes.moved("newly unproven")]
    return _seal_line(
        "same" if changes.none else "changed",
        date=stored.date,
        by=stored.by,
        verdict=stored.verdict,
        causes=list(changes.causes),
        moves=dict(counts),
        parts=[each.id for each in changes.parts if each.how in ("changed", "revised")],
        newly=[f"{move.how}: {move.rule}, {move.subject}" for move in grave[:MOST_NAMED]],
    )


def _seal_line(state: str, **more: Any) -> dict[str, Any]:
    texts = dict.fromkeys(("date", "by", "verdict"), "")
    return {
        "state": state, **texts, "causes": [], "moves": {}, "parts": [], "newly": [], "problem": "",
        **more,
    }  # fmt: skip


def _line(order: Order, findings: Findings, seal: dict[str, Any]) -> dict[str, Any]:
    from coordination.report.answer import problem_words

    problems = [problem_words(each) for each in findings.problems if each.incomplete]
    return {
        "file": order.path,
        "outcome": "checked",
        "system": findings.system.name,
        "verdict": findings.verdict,
        "status": findings.exit_status,
        "counts": dict(findings.counts),
        "problems": _few(list(map(clean, problems))),
        "seal": seal,
    }


def no_verdict(path: str, outcome: str, *problems: str) -> dict[str, Any]:
    """The line of a job that has no verdict."""
    nothing = dict.fromkeys(("system", "verdict", "status", "counts"))
    line = {"file": path, "outcome": outcome, **nothing, "problems": _few(list(problems))}
    return line | {"seal": None}


def unusable(path: str, error: Exception) -> dict[str, Any]:
    """The line of a job that could not be judged for a reason outside its file."""
    return no_verdict(path, "unusable", clean(str(error)))


def _no_verdict(order: Order, outcome: str, *problems: str) -> Outcome:
    return Outcome(order.number, no_verdict(order.path, outcome, *problems))


def _aside(order: Order, outcome: str) -> Outcome:
    return Outcome(order.number, {"file": order.path, "outcome": outcome})


def _few(problems: list[str]) -> list[str]:
    left = len(problems) - MOST_NAMED
    return [*problems[:MOST_NAMED], *([f"and {left} more problems"] if left > 0 else [])]
