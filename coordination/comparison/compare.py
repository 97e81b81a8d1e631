"""Holds two sides apart: verdicts, margins, currents, and what stands in the drawing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final, NamedTuple

from coordination.comparison.drawing import Field, Thing
from coordination.comparison.pairing import Change, paired
from coordination.comparison.renames import renamed, set_aside
from coordination.comparison.side import QUANTITIES, Figures, Said, Side

#: Share by which a margin or a current must move to be told.
THRESHOLD: Final = 0.01
#: What may have happened to a verdict, gravest first.
MOVES: Final = (
    "new fail", "newly unproven", "newly waived", "eroded", "vanished", "other", "appeared",
    "settled", "cured", "improved",
)  # fmt: skip
_GOOD: Final = ("pass", "note")


class Move(NamedTuple):
    """What happened to one rule's verdict on one subject.

    subject -- its name now, or the old one of what is gone
    """

    how: str
    rule: str
    subject: str
    before: Said | None
    after: Said | None

    @property
    def ratio(self) -> float | None:
        """New margin by old one."""
        old = self.before.margin if self.before else None
        new = self.after.margin if self.after else None
        return new / old if old and new is not None else None


class Moved(NamedTuple):
    """A current or voltage [SI] that is another; None: not known."""

    condition: str
    where: str
    quantity: str
    before: float | None
    after: float | None


class Altered(NamedTuple):
    """A thing or part that came ("added"), went ("removed"), or states something else.

    fields -- name of the field, then as it was and as it is; empty where it was, or is, not stated
    """

    how: str
    kind: str
    name: str
    fields: tuple[tuple[str, str, str], ...] = ()


class Comparison(NamedTuple):
    """All that differs between two sides.

    renames -- old name to new one: a guess
    things, parts, currents -- None where one side does not have them
    packs, conditions, holes -- name, as it was, as it is
    """

    old: Side
    new: Side
    threshold: float
    moves: tuple[Move, ...]
    renames: Mapping[str, str]
    things: tuple[Altered, ...] | None
    parts: tuple[Altered, ...] | None
    currents: tuple[Moved, ...] | None
    packs: tuple[tuple[str, str, str], ...]
    conditions: tuple[tuple[str, str, str], ...]
    holes: tuple[str, ...]

    def of(self, how: str) -> tuple[Move, ...]:
        """The moves of one kind."""
        return tuple(each for each in self.moves if each.how == how)

    @property
    def exit_status(self) -> int:
        """1 a new fail; 3 none, but something newly unproven or unchecked; 0 otherwise."""
        if self.of("new fail"):
            return 1
        return 3 if self.of("newly unproven") or self.holes else 0


def compared(old: Side, new: Side, threshold: float = THRESHOLD) -> Comparison:
    """What differs in `new` from `old`."""
    guessed: dict[str, str] = {}
    names: dict[str, str] = {}
    if old.things is not None and new.things is not None:
        guessed = renamed(old.things, new.things)
        names = guessed | set_aside(old.things, guessed)
    before, after = (dict.fromkeys(each.conditions, "there") for each in (old, new))
    said = [each._replace(subject=names.get(each.subject, each.subject)) for each in old.said]
    moves = [_move(each, threshold) for each in paired(said, new.said)]
    return Comparison(
        old,
        new,
        threshold,
        tuple(sorted((each for each in moves if each), key=_gravity)),
        guessed,
        _things(old, new, names),
        _parts(old, new),
        _currents(old, new, names, threshold),
        tuple(_mapped(old.packs, new.packs)),
        tuple(_mapped(before, after)),
        tuple(each for each in new.holes if each not in old.holes),
    )


def _gravity(move: Move) -> tuple[int, float, str, str]:
    ratio = move.ratio
    away = -abs(ratio - 1.0) if ratio is not None and move.how in ("eroded", "improved") else 0.0
    return MOVES.index(move.how), away, move.subject, move.rule


def _move(change: Change[Said], threshold: float) -> Move | None:
    one = change.after or change.before
    assert one is not None
    how = _how(*change.verdicts) or _margin(change, threshold)
    return Move(how, one.rule, one.subject, change.before, change.after) if how else None


def _how(was: str, now: str) -> str:
    """What happened to a verdict; empty: nothing."""
    if was == now:
        return ""
    if now in ("fail", "unproven", "waived"):
        return {"fail": "new fail", "unproven": "newly unproven", "waived": "newly waived"}[now]
    if not now:
        return "vanished"
    if not was:
        return "appeared"
    if was in ("fail", "waived"):
        return "cured"
    return "settled" if was == "unproven" else "other"


def _margin(change: Change[Said], threshold: float) -> str:
    old, new = change.before, change.after
    if old is None or new is None or not old.margin or new.margin is None:
        return ""
    ratio = new.margin / old.margin
    if abs(ratio - 1.0) <= threshold:
        return ""
    return "eroded" if ratio < 1.0 else "improved"


def _things(old: Side, new: Side, names: Mapping[str, str]) -> tuple[Altered, ...] | None:
    if old.things is None or new.things is None:
        return None
    before = {names.get(name, name): thing for name, thing in old.things.items()}
    return tuple(_altered(before, new.things, names))


def _altered(
    before: Mapping[str, Thing], after: Mapping[str, Thing], names: Mapping[str, str]
) -> Iterator[Altered]:
    for key in dict.fromkeys((*before, *after)):
        old, new = before.get(key), after.get(key)
        if old is None or new is None:
            one = new or old
            assert one is not None
            yield Altered("removed" if new is None else "added", one.kind, one.name)
            continue
        fields = tuple(_fields(old, new, names))
        if fields:
            yield Altered("changed", new.kind, new.name, fields)


def _fields(old: Thing, new: Thing, names: Mapping[str, str]) -> Iterator[tuple[str, str, str]]:
    if old.kind != new.kind:
        yield "kind", old.kind, new.kind
    for key in dict.fromkeys((*old.fields, *new.fields)):
        was, now = old.fields.get(key), new.fields.get(key)
        if _value(was, names) != _value(now, {}):
            yield key, was.text if was else "", now.text if now else ""


def _value(field: Field | None, names: Mapping[str, str]) -> object:
    """What a field states, with names as they are now: a rename is told once."""
    if field is None:
        return None
    if isinstance(field.value, str):
        return names.get(field.value, field.value)
    if isinstance(field.value, tuple):
        return tuple(names.get(each, each) for each in field.value)
    return field.value


def _parts(old: Side, new: Side) -> tuple[Altered, ...] | None:
    if old.parts is None or new.parts is None:
        return None
    found = []
    for name in dict.fromkeys((*old.parts, *new.parts)):
        was, now = old.parts.get(name), new.parts.get(name)
        if was is None or now is None:
            found.append(Altered("added" if was is None else "removed", "part", name))
        elif fields := tuple(_mapped(was, now)):
            found.append(Altered("changed", "part", name, fields))
    return tuple(found)


def _mapped(was: Mapping[str, str], now: Mapping[str, str]) -> Iterator[tuple[str, str, str]]:
    for name in dict.fromkeys((*was, *now)):
        if was.get(name) != now.get(name):
            yield name, was.get(name, ""), now.get(name, "")


def _currents(
    old: Side, new: Side, names: Mapping[str, str], threshold: float
) -> tuple[Moved, ...] | None:
    if old.figures is None or new.figures is None:
        return None
    return tuple(_moved(old.figures, new.figures, names, threshold))


def _moved(
    old: Figures, new: Figures, names: Mapping[str, str], threshold: float
) -> Iterator[Moved]:
    """Quantities of what is on both sides, in the conditions that are on both."""
    for condition, entries in old.items():
        now = new.get(condition, {})
        for was_named, figures in entries.items():
            name = _point(was_named, names)
            for key in QUANTITIES:
                if name in now and key in figures and key in now[name]:
                    before, after = figures[key], now[name][key]
                    if _differs(before, after, threshold):
                        yield Moved(condition, name, key, before, after)


def _point(name: str, names: Mapping[str, str]) -> str:
    """A point's or element's name as it is now; a junction is named after its circuit."""
    thing, sign, rest = name.partition("@")
    if name in names or not sign:
        return names.get(name, name)
    return f"{names.get(thing, thing)}@{rest}"


def _differs(before: float | None, after: float | None, threshold: float) -> bool:
    if before is None or after is None:
        return before is not after
    return abs(after - before) > threshold * max(abs(before), abs(after))
