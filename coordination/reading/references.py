"""Names in the file: what each is the name of, and where it is used; checked when all is read."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final, NamedTuple

from coordination.reading.notes import Notes, Placed
from coordination.reading.text import quoted

ELEMENT_KINDS: Final = ("fuse", "breaker", "cable", "disconnect", "channel", "joint")
#: Kind of an element whose kind could not be read; it fits every role.
UNCLEAR: Final = "part of unclear kind"
POINT_KINDS: Final = ("source", "busbar", "equipment", "converter end", "junction")


class Role(NamedTuple):
    """What a name is used for: the kinds of thing that fit, and how to say so."""

    kinds: tuple[str, ...]
    words: str


ROLES: Final[Mapping[str, Role]] = {
    "point": Role(
        POINT_KINDS,
        "a source, a busbar, equipment, <converter>.input or .output, or <circuit>@<number>",
    ),
    "circuit": Role(("circuit",), "a circuit"),
    "close": Role(("disconnect",), "a disconnect: its name, or <circuit>/<number>"),
    "open": Role(
        ("disconnect", "breaker", "fuse", "channel"),
        "a disconnect, breaker, fuse or channel: its name, or <circuit>/<number>",
    ),
    "without": Role(
        ("source", "converter", "equipment", "circuit", "inlet", "AC load"),
        "a source, a converter, equipment, a circuit, an inlet or an AC load",
    ),
    "draw": Role(("equipment", "converter", "AC load"), "equipment, a converter or an AC load"),
    "inlet": Role(("inlet",), "an inlet under shore:"),
    "operator": Role(("source",), "a source, whose electronics drive the switch"),
    "subject": Role(
        (*ELEMENT_KINDS, "source", "busbar", "equipment", "converter", "inlet"),
        "a source, a busbar, equipment, a converter, an inlet or an element",
    ),
}


class _Use(NamedTuple):
    name: str
    role: str
    at: Placed


class References:
    """Everything named in the file, and every use of a name."""

    def __init__(self) -> None:
        self.declared: dict[str, tuple[str, Placed]] = {}
        self._twice: list[tuple[str, str, Placed]] = []
        self._uses: list[_Use] = []
        self._fit: dict[str, tuple[str, ...]] = {}

    def declare(self, name: str, kind: str, at: Placed) -> None:
        """`name` is the name of a thing of `kind`; names are one space, so that each is unique."""
        if name in self.declared:
            self._twice.append((name, kind, at))
        else:
            self.declared[name] = (kind, at)

    def use(self, name: str, role: str, at: Placed) -> None:
        """`name` is used at a place for a role, a key of ROLES."""
        self._uses.append(_Use(name, role, at))

    def check(self, notes: Notes) -> set[str]:
        """Note names that stand for two things, and uses of names that nothing suitable has.

        gives -- the roles of such uses
        """
        failed: set[str] = set()
        for name, kind, at in self._twice:
            first, where = self.declared[name]
            taken = f"is taken by the {first} in line {where.line}"
            what = f"the name {quoted(name)} of this {kind} {taken}"
            notes.say(at, what, "a name that nothing else has")
        for use in self._uses:
            kind = self.declared[use.name][0] if use.name in self.declared else ""
            if kind not in ROLES[use.role].kinds and kind != UNCLEAR:
                self._note_use(notes, use, kind)
                failed.add(use.role)
        return failed

    def _note_use(self, notes: Notes, use: _Use, kind: str) -> None:
        role = ROLES[use.role]
        if kind == "converter" and use.role == "point":
            what = f"{quoted(use.name)} is a converter, which has two ends"
            notes.say(use.at, what, f"{use.name}.input, {use.name}.output")
            return
        what = f"{quoted(use.name)} is a {kind}" if kind else f"nothing is named {quoted(use.name)}"
        fitting = () if kind else self._fitting(use.role)
        notes.say(use.at, what, role.words, notes.nearest(use.name, fitting) if fitting else "")

    def _fitting(self, role: str) -> tuple[str, ...]:
        """Every name that fits a role."""
        if role not in self._fit:
            kinds = ROLES[role].kinds
            fit = (name for name, (kind, _) in self.declared.items() if kind in kinds)
            self._fit[role] = tuple(fit)
        return self._fit[role]
