"""Parts out of a JSON file, with everything that is wrong in it."""

from __future__ import annotations

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from catalogue.building import build
from catalogue.parts import Part
from catalogue.problems import SheetError, SheetProblem
from catalogue.sheets.rows import MOST
from catalogue.sheets.writing import FORMAT


def parts_of_json(path: str) -> Iterator[Part]:
    """The parts of a file that `writing.as_json` could have written.

    Raises SheetError with every problem, at the end; parts given before are void. OSError.
    """
    problems: list[SheetProblem] = []
    seen: dict[str, int] = {}
    for number, entry in enumerate(_entries(path)):
        part = _part(f"parts[{number}]", entry, problems)
        if part is None:
            continue
        if part.id in seen:
            what = f"parts[{number}]: {part.id!r} is parts[{seen[part.id]}] too"
            problems.append(SheetProblem(0, "", what))
        seen.setdefault(part.id, number)
        yield part
    if problems:
        raise SheetError(tuple(problems[:MOST]))


def _part(place: str, entry: Any, problems: list[SheetProblem]) -> Part | None:
    if not isinstance(entry, dict):
        hint = 'write {"id": ..., "kind": ...}'
        problems.append(SheetProblem(0, "", f"{place} is no part", hint))
        return None
    stated = {name: value for name, value in entry.items() if name not in ("id", "kind")}
    part_id, kind = entry.get("id"), entry.get("kind")
    if not isinstance(part_id, str) or not isinstance(kind, str):
        problems.append(SheetProblem(0, "", f"{place} lacks its id or its kind, as a text"))
        return None
    part, found = build(part_id, kind, stated)
    for problem in found:
        what = f"{place}.{problem.path} ({part_id[:60]}): {problem.what}"
        problems.append(SheetProblem(0, "", what, problem.hint))
    return part


def _entries(path: str) -> list[Any]:
    """The list of parts in the file. Raises SheetError if it is no JSON or no list of parts."""
    data = Path(path).read_bytes()
    try:
        content = json.loads(data.decode("utf-8-sig"), object_pairs_hook=_once)
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        raise SheetError((SheetProblem(line, "", "this is not UTF-8"),)) from error
    except json.JSONDecodeError as error:
        what = f"this is no JSON: {error.msg} (column {error.colno})"
        raise SheetError((SheetProblem(error.lineno, "", what),)) from error
    except (RecursionError, _Twice) as error:
        what = str(error) if isinstance(error, _Twice) else "it is nested too deeply"
        raise SheetError((SheetProblem(0, "", what),)) from error
    if not isinstance(content, dict) or content.get("format") != FORMAT:
        what = f'this is no file of parts: it lacks "format": "{FORMAT}"'
        raise SheetError((SheetProblem(0, "", what),))
    if content.get("version") != 1 or not isinstance(content.get("parts"), list):
        what = f'version {str(content.get("version"))[:20]} is not read here, or "parts" is no list'
        raise SheetError((SheetProblem(0, "", what, "version 1"),))
    return list(content["parts"])


class _Twice(ValueError):  # noqa: N818 -- a key that stands twice
    """A key stands twice in one object."""


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        raise _Twice(f"a key stands twice beside {pairs[0][0][:40]!r}")
    return found
