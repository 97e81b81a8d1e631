"""Rules that no installed pack brings: files named on the command line or in the user's own
configuration, `$XDG_CONFIG_HOME/fusewright/`. A system file or a folder never names code.

config.yaml there may list files, whose paths count from that folder:

rules_from: [yard.py]
house_rules: [fuses.yaml]

A `house_rules.yaml` beside it is taken without being named.
"""

from __future__ import annotations

import os
from collections.abc import Mapping
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from coordination.rules.house import HouseRules
    from coordination.rules.pack import Pack, Packs
    from coordination.rules.problem import RunProblem


class Local(NamedTuple):
    """Files of rules: Python modules, and house rules as data."""

    rules_from: tuple[str, ...] = ()
    house_rules: tuple[str, ...] = ()

    def __add__(self, other: object) -> Local:
        """Both together, each file once."""
        if not isinstance(other, Local):
            return NotImplemented
        return Local(
            tuple(dict.fromkeys((*self.rules_from, *other.rules_from))),
            tuple(dict.fromkeys((*self.house_rules, *other.house_rules))),
        )


def configured(environment: Mapping[str, str]) -> Local:
    """What the user's own configuration names. Raises BadInput if it cannot be read."""
    folder = _folder(environment)
    if not folder:
        return Local()
    own = os.path.join(folder, "house_rules.yaml")
    found = Local(house_rules=(own,) if os.path.isfile(own) else ())
    named = os.path.join(folder, "config.yaml")
    return found + _named(named, folder) if os.path.isfile(named) else found


def _folder(environment: Mapping[str, str]) -> str:
    """The configuration's folder; a relative one counts for nothing, as it would follow the cwd."""
    base = environment.get("XDG_CONFIG_HOME", "")
    if not os.path.isabs(base):
        home = os.path.expanduser("~")
        base = os.path.join(home, ".config") if os.path.isabs(home) else ""
    return os.path.join(base, "fusewright") if base else ""


def _named(path: str, folder: str) -> Local:
    from coordination.reading.fields import Field, FieldTable
    from coordination.reading.nodes import tree
    from coordination.reading.notes import Notes
    from coordination.reading.reader import Reader
    from coordination.reading.records import read_record
    from coordination.reading.text import decode, read_file

    table = FieldTable(
        {
            "rules_from": Field(shape="texts", meaning="Python files with rules"),
            "house_rules": Field(shape="texts", meaning="files of house rules"),
        }
    )
    notes = Notes(path)
    root = tree(decode(read_file(path), path), notes)
    values = read_record(Reader(notes, _NoCatalogue()), root, root, table, {})
    notes.raise_if_any()
    paths = {
        key: tuple(os.path.join(folder, os.path.expanduser(each)) for each in texts)
        for key, texts in values.items()
    }
    return Local(paths.get("rules_from", ()), paths.get("house_rules", ()))


class _NoCatalogue:
    """A configuration names no parts."""

    def get(self, _: str, /) -> None:
        return None

    def near(self, _: str, __: str, /) -> None:
        return None


class LocalRules:
    """Puts the packs of such files to those of a run; reads the files once, at the first run."""

    def __init__(self, local: Local, today: str) -> None:
        self.local, self._today = local, today
        self._made: list[Pack | RunProblem] | None = None
        self._house: HouseRules | None = None

    def __call__(self, packs: Packs) -> Packs:
        """The packs and those of the files.

        Raises BadInput: a file is not there, or cannot be read.
        """
        for made in self._files():
            packs = packs.with_pack(made)
        if self.local.house_rules:
            from coordination.rules.house import house_pack, read_house_rules

            if self._house is None:
                self._house = read_house_rules(self.local.house_rules)
            # Margins are asked of the rules that this run has.
            packs = packs.with_pack(house_pack(self._house, packs))
        return packs

    def _files(self) -> list[Pack | RunProblem]:
        if self._made is None:
            self._made = []
            if self.local.rules_from:
                from coordination.rules.local import pack_from_file

                named = self.local.rules_from
                self._made = [pack_from_file(path, self._today) for path in named]
        return self._made


def with_local(packs: Packs, local: Local, today: str) -> Packs:
    """The packs and those of the files. Raises BadInput: a file is not there, or cannot be read."""
    return LocalRules(local, today)(packs)
