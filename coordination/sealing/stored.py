"""The seal's file beside the job: `FILE.seal.json`. Reads it with distrust; words it in lines.

A seal that is cut off, damaged, changed by hand, or of a newer program is refused with the reason.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable, Iterator
from typing import Any, Final, NoReturn

import msgspec

from coordination.errors import BadInput, Problem
from coordination.sealing.seal import FORMAT, Seal

ENDING: Final = ".seal.json"
#: Largest seal [bytes] that is read; one of 2,000 lines of system file is about 4 MB.
LARGEST: Final = 50_000_000


def seal_path(file: str) -> str:
    """Where the seal of a system file is."""
    return file + ENDING


def stored_seal(file: str) -> Seal | None:
    """The seal of a system file; None if it has none. Raises BadInput: it cannot be used."""
    path = seal_path(file)
    return read_seal(path) if os.path.lexists(path) else None


def read_seal(path: str) -> Seal:
    """The seal in the file at `path`. Raises BadInput if it cannot be used, with the reason."""
    try:
        with open(path, "rb") as stream:
            data = stream.read(LARGEST + 1)
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        _refuse(path, f"the seal cannot be read: {reason.lower()}")
    if len(data) > LARGEST:
        _refuse(path, f"the seal is larger than {LARGEST // 1_000_000} MB: no seal is")
    return _understood(path, _json(path, data))


def _json(path: str, data: bytes) -> dict[str, Any]:
    try:
        found = json.loads(
            data.decode("utf-8"), object_pairs_hook=_each_once, parse_constant=_no_number
        )
    except UnicodeDecodeError:
        _refuse(path, "the seal is no UTF-8 text: it is damaged")
    except json.JSONDecodeError as error:
        cut = error.pos >= len(data.decode("utf-8").rstrip())
        state = "it is cut off" if cut else f"it is damaged ({error.msg})"
        _refuse(path, f"the seal is no JSON: {state}", error.lineno, error.colno)
    except RecursionError:
        _refuse(path, "the seal is nested too deep: it is damaged")
    except ValueError as error:
        _refuse(path, f"the seal is damaged: {error}")
    if not isinstance(found, dict) or "fusewright_seal" not in found:
        _refuse(path, "this is no seal: it does not hold 'fusewright_seal'")
    return found


def _each_once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) < len(pairs):
        raise ValueError("a key stands twice")
    return found


def _no_number(text: str) -> NoReturn:
    raise ValueError(f"{text} is no number")


def _understood(path: str, found: dict[str, Any]) -> Seal:
    edition = found["fusewright_seal"]
    if type(edition) is int and edition > FORMAT:
        what = f"the seal is of format {edition}, made by a newer Fusewright; update this one"
        _refuse(path, what)
    try:
        seal = msgspec.convert(found, Seal)
    except msgspec.ValidationError as error:
        _refuse(path, f"the seal is damaged: {error}")
    if digest_of_seal(found) != seal.digest:
        _refuse(path, "the seal was changed after it was made: its digest does not fit its content")
    if not _tallies(seal):
        _refuse(path, "the seal contradicts itself: its counts are not those of its verdicts")
    return seal


def _tallies(seal: Seal) -> bool:
    """Whether verdict and counts are those of the findings; whoever forges one forgets another."""
    counts = dict.fromkeys(("pass", "fail", "unproven", "note", "waived"), 0)
    for subjects in seal.verdicts.values():
        for each in subjects.values():
            counts[each.verdict] += 1
    if counts != seal.counts:
        return False
    open_ = counts["unproven"] or seal.problems
    return seal.verdict == "fail" if counts["fail"] else seal.verdict != "pass" or not open_


def _refuse(path: str, what: str, line: int = 0, column: int = 0) -> NoReturn:
    allowed = "a seal that `fusewright seal` wrote"
    raise BadInput((Problem(path, line, column, what, allowed),))


def digest_of_seal(content: dict[str, Any]) -> str:
    """The digest of a seal's content, whatever stands under `digest` in it."""
    from coordination.sealing.hashes import of_bytes

    rest = {key: value for key, value in content.items() if key != "digest"}
    text = json.dumps(rest, sort_keys=True, separators=(",", ":"), ensure_ascii=True)
    return of_bytes(text.encode("ascii"))


def text_of_seal(seal: Seal) -> str:
    """The seal as its file holds it: a line a part, a line a verdict, so that versions compare."""
    content = msgspec.to_builtins(seal)
    depths = {"parts": 1, "packs": 1, "verdicts": 2, "rule_files": 1, "problems": 1}
    lines = [
        f'"{key}": {_laid_out(value, depths.get(key, 0), " ")}' for key, value in content.items()
    ]
    text = "{\n " + ",\n ".join(lines) + "\n}\n"
    return "".join(sign if sign == "\n" or sign.isprintable() else _escape(sign) for sign in text)


def _escape(sign: str) -> str:
    """What a terminal would obey, or nobody would see, as JSON escapes it."""
    return json.dumps(sign)[1:-1]


def _laid_out(value: Any, depth: int, indent: str) -> str:
    """JSON with its outer levels on lines of their own."""
    if not depth or not value:
        return json.dumps(value, ensure_ascii=False)
    inner = indent + " "
    entries: Iterable[str]
    if isinstance(value, dict):
        entries = _entries(value, depth, inner)
        left, right = "{}"
    else:
        entries = (_laid_out(each, depth - 1, inner) for each in value)
        left, right = "[]"
    return f"{left}\n{inner}" + f",\n{inner}".join(entries) + f"\n{indent}{right}"


def _entries(value: dict[str, Any], depth: int, indent: str) -> Iterator[str]:
    for key, each in value.items():
        yield f"{json.dumps(key, ensure_ascii=False)}: {_laid_out(each, depth - 1, indent)}"
