"""Reads case files: one per rule, named after it, in a pack's folder `cases`.

rule: interrupt-rating
system: one_battery.yaml            # for every case that names no other
cases:
  far too small fails:
    set: {main/1.fuse: fuse-small}  # an element by its name, or a path from the top
    remove: [parts.pack.charge_voltage]
    expect: {subject: main/1, verdict: fail, found: 8.5 kA, required: 5 kA}
    others: pass                    # the rule's findings that are not listed
    edge: outside                   # a case at the very limit: inside or outside
    origin: hand calculation, 27.2 V / 3.2 mΩ
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import fields
from pathlib import Path
from typing import Any

import yaml

from coordination.testing.case import Case, CaseError, Expected

_TOP = {"rule", "system", "cases"}
_CASE = {"system", "set", "remove", "expect", "others", "edge", "origin"}
_EXPECT = {field.name for field in fields(Expected)}


def collect_cases(
    folder: str | Path, *, pack: str | None = None, systems: Sequence[str | Path] = ()
) -> tuple[Case, ...]:
    """Every case of the folder's `<rule>.yaml` files, by file and in file order.

    pack    -- whose rules they are; None: from the name of the folder above, `fusewright_<pack>`
    systems -- where system files are looked for, beside `systems/` in the folder itself
    Raises CaseError for a file with an unknown key, a missing system or no `origin`.
    """
    folder = Path(folder)
    owner = pack or folder.resolve().parent.name.removeprefix("fusewright_")
    places = (folder / "systems", *map(Path, systems))
    return tuple(
        case for file in sorted(folder.glob("*.yaml")) for case in _file(file, owner, places)
    )


def _file(file: Path, pack: str, places: Sequence[Path]) -> Iterator[Case]:
    with file.open(encoding="utf-8") as stream:
        # BaseLoader leaves every scalar the text it is, as the system file's own reader does.
        content = yaml.load(stream, Loader=yaml.BaseLoader)
    _known(content, _TOP, str(file))
    if content.get("rule") != file.stem:
        raise CaseError(f"{file}: `rule` must be {file.stem!r}, the name of the file")
    for name, written in (content.get("cases") or {}).items():
        where = f"{file}: {name}"
        _known(written, _CASE, where)
        yield _case(f"{pack}/{file.stem}", name, file, content.get("system"), written, places)


def _case(
    rule: str,
    name: str,
    file: Path,
    default: str | None,
    written: Mapping[str, Any],
    places: Sequence[Path],
) -> Case:
    where = f"{file}: {name}"
    if not written.get("origin"):
        raise CaseError(f"{where}: `origin` must say where the expected figures come from")
    if written.get("edge") not in (None, "inside", "outside"):
        raise CaseError(f"{where}: `edge` is inside or outside")
    expect = written.get("expect", [])
    return Case(
        rule=rule,
        name=name,
        file=file,
        origin=written["origin"],
        edge=written.get("edge"),
        system=_system(written.get("system", default), places, where),
        changes=written.get("set", {}),
        removals=tuple(written.get("remove", ())),
        expected=tuple(
            _expected(each, where) for each in (expect if isinstance(expect, list) else [expect])
        ),
        others=_several(written.get("others", [])),
    )


def _expected(written: Any, where: str) -> Expected:
    _known(written, _EXPECT, where)
    if not written.get("subject") or not written.get("verdict"):
        raise CaseError(f"{where}: `expect` needs a subject and a verdict")
    missing = written.get("missing")
    phrases = None if missing is None else _several(missing)
    return Expected(**{**written, "missing": phrases})


def _system(name: str | None, places: Sequence[Path], where: str) -> Path:
    if not name:
        raise CaseError(f"{where}: no `system`")
    for place in places:
        if (place / name).is_file():
            return place / name
    raise CaseError(f"{where}: no system file {name!r} in {', '.join(map(str, places))}")


def _several(written: Any) -> tuple[str, ...]:
    return tuple(written) if isinstance(written, list) else (written,)


def _known(written: Any, keys: set[str], where: str) -> None:
    if not isinstance(written, dict):
        raise CaseError(f"{where}: must be a mapping")
    if unknown := set(written) - keys:
        allowed = ", ".join(sorted(keys))
        raise CaseError(f"{where}: unknown key {sorted(unknown)[0]!r}; there are {allowed}")
