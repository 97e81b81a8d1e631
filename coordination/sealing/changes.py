"""Holds two seals of a job apart: the one it has, and the one it would have now."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Final, NamedTuple

from coordination.sealing.seal import Replaced, Seal, SealedPack, SealedPart, SealedVerdict

#: Share by which a margin may move without being called lower or higher: rounding of the sums.
STEADY: Final = 1e-6

#: How a verdict moved, in the order of the report.
MOVES: Final = (
    "new fail", "newly unproven", "lower margin", "newly waived", "no longer judged", "cured",
    "other", "newly judged", "higher margin",
)  # fmt: skip


class Move(NamedTuple):
    """One rule and subject whose verdict or margin moved; None where it was, or is, not judged."""

    how: str
    rule: str
    subject: str
    was: SealedVerdict | None
    now: SealedVerdict | None


class Differs(NamedTuple):
    """A thing that is not what it was: what of it, in words; empty where it was, or is, not."""

    what: str
    was: str
    now: str


class PartChange(NamedTuple):
    """A part that states something else, came, or went; fields by the column of a sheet."""

    id: str
    how: str
    fields: tuple[Differs, ...] = ()


class Changes(NamedTuple):
    """What has changed since a seal.

    causes -- what the verdict rests on: file, program, packs, files of rules, command line, parts
    moves  -- what that did to verdicts and margins
    """

    seal: Seal
    verdict: Differs | None
    file: tuple[Differs, ...]
    program: tuple[Differs, ...]
    packs: tuple[Differs, ...]
    rules: tuple[Differs, ...]
    asked: tuple[Differs, ...]
    conditions: tuple[Differs, ...]
    problems: tuple[Differs, ...]
    parts: tuple[PartChange, ...]
    moves: tuple[Move, ...]

    @property
    def causes(self) -> tuple[str, ...]:
        """What has changed of what the verdict rests on, in words."""
        of = ("file", "parts", "packs", "rules", "program", "asked")
        return tuple(name for name in of if getattr(self, name))

    @property
    def none(self) -> bool:
        """Whether nothing has changed: neither what it rests on nor what was found."""
        found = self.verdict or self.moves or self.conditions or self.problems
        return not self.causes and not found

    @property
    def other_verdicts(self) -> bool:
        """Whether a verdict is another, not only a margin."""
        moved = ((each.was, each.now) for each in self.moves)
        return bool(self.verdict) or any(
            was is None or now is None or was.verdict != now.verdict for was, now in moved
        )

    def moved(self, how: str) -> tuple[Move, ...]:
        """The moves of one kind of MOVES."""
        return tuple(each for each in self.moves if each.how == how)


def changes_between(was: Seal, now: Seal) -> Changes:
    """What differs in `now` from the seal `was`."""
    verdict = Differs("verdict", was.verdict, now.verdict)
    return Changes(
        seal=was,
        verdict=verdict if was.verdict != now.verdict else None,
        file=tuple(_file(was, now)),
        program=tuple(_program(was, now)),
        packs=tuple(_packs(was.packs, now.packs)),
        rules=tuple(_rules(was, now)),
        asked=tuple(_asked(was, now)),
        conditions=tuple(_listed("condition", was.conditions, now.conditions)),
        problems=tuple(_listed("problem", was.problems, now.problems)),
        parts=tuple(_parts(was.parts, now.parts)),
        moves=tuple(_moves(was, now)),
    )


def replaced(seal: Seal) -> Replaced:
    """What the next seal says of the one it takes the place of."""
    return Replaced(seal.digest, seal.date, seal.by, seal.verdict)


def _file(was: Seal, now: Seal) -> Iterator[Differs]:
    if was.file.sha256 != now.file.sha256:
        yield Differs("content", was.file.sha256, now.file.sha256)
    if was.file.name != now.file.name:
        yield Differs("name", was.file.name, now.file.name)
    if was.system != now.system:
        yield Differs("system", was.system, now.system)


def _program(was: Seal, now: Seal) -> Iterator[Differs]:
    if was.program.version != now.program.version:
        yield Differs("version", was.program.version, now.program.version)
    elif was.program.sha256 != now.program.sha256:
        yield Differs("content", was.program.sha256, now.program.sha256)


def _packs(was: Mapping[str, SealedPack], now: Mapping[str, SealedPack]) -> Iterator[Differs]:
    for name in sorted({*was, *now}):
        old, new = was.get(name), now.get(name)
        if old is None or new is None:
            yield Differs(name, _edition(old), _edition(new))
        elif old != new:
            yield from _of_pack(name, old, new)


def _of_pack(name: str, old: SealedPack, new: SealedPack) -> Iterator[Differs]:
    if _edition(old) != _edition(new):
        yield Differs(name, _edition(old), _edition(new))
    elif old.sha256 != new.sha256:
        yield Differs(f"{name}, content", old.sha256, new.sha256)
    else:
        yield Differs(f"{name}, rules", str(old.rules), str(new.rules))


def _edition(pack: SealedPack | None) -> str:
    return f"{pack.version}, edition {pack.edition}" if pack else ""


def _rules(was: Seal, now: Seal) -> Iterator[Differs]:
    old = {f"{each.kind} {each.name}": each.sha256 for each in was.rule_files}
    new = {f"{each.kind} {each.name}": each.sha256 for each in now.rule_files}
    yield from _mapped(old, new)


def _asked(was: Seal, now: Seal) -> Iterator[Differs]:
    yield from _listed("--pack", was.asked.packs, now.asked.packs)
    yield from _listed("--without-pack", was.asked.without, now.asked.without)


def _listed(what: str, was: list[str], now: list[str]) -> Iterator[Differs]:
    yield from (Differs(what, each, "") for each in was if each not in now)
    yield from (Differs(what, "", each) for each in now if each not in was)


def _mapped(was: Mapping[str, str], now: Mapping[str, str]) -> Iterator[Differs]:
    for name in sorted({*was, *now}):
        if was.get(name) != now.get(name):
            yield Differs(name, was.get(name, ""), now.get(name, ""))


def _parts(was: Mapping[str, SealedPart], now: Mapping[str, SealedPart]) -> Iterator[PartChange]:
    for part_id in sorted({*was, *now}):
        old, new = was.get(part_id), now.get(part_id)
        if old is None:
            yield PartChange(part_id, "newly used")
        elif new is None:
            yield PartChange(part_id, "no longer used")
        elif (old.sha256, old.origin) != (new.sha256, new.origin):
            yield PartChange(part_id, "changed", tuple(_fields(old, new)))
        elif old.revision != new.revision:
            fields = _mapped({"revision": _number(old)}, {"revision": _number(new)})
            yield PartChange(part_id, "revised", tuple(fields))


def _fields(old: SealedPart, new: SealedPart) -> Iterator[Differs]:
    first = {"origin": old.origin, "revision": _number(old)}
    second = {"origin": new.origin, "revision": _number(new)}
    yield from _mapped(first, second)
    yield from _mapped(old.content, new.content)


def _number(part: SealedPart) -> str:
    return "" if part.revision is None else str(part.revision)


def _moves(was: Seal, now: Seal) -> Iterator[Move]:
    found = []
    for rule in sorted({*was.verdicts, *now.verdicts}):
        old, new = was.verdicts.get(rule, {}), now.verdicts.get(rule, {})
        for subject in sorted({*old, *new}):
            how = _how(old.get(subject), new.get(subject))
            if how:
                found.append(Move(how, rule, subject, old.get(subject), new.get(subject)))
    # Sorting keeps the order among moves of a kind.
    yield from sorted(found, key=lambda move: MOVES.index(move.how))


def _how(was: SealedVerdict | None, now: SealedVerdict | None) -> str:
    """How the verdict moved; empty if it is the same, with the same margin."""
    if was is None or now is None or was.verdict != now.verdict:
        return _verdict_move(was.verdict if was else "", now.verdict if now else "")
    if was.margin is None or now.margin is None:
        return "" if was.margin == now.margin else "other"
    if abs(now.margin - was.margin) <= STEADY * abs(was.margin):
        return ""
    return "lower margin" if now.margin < was.margin else "higher margin"


def _verdict_move(was: str, now: str) -> str:
    if now in _GRAVE:
        return _GRAVE[now]
    if not now:
        return "no longer judged"
    if not was:
        return "newly judged"
    return "cured" if was in ("fail", "unproven", "waived") else "other"


_GRAVE: Final = {"fail": "new fail", "unproven": "newly unproven", "waived": "newly waived"}
