"""Studies, rules and packs made by hand: the judge is tested apart from those that there are."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from coordination.model import Element, Place, System, Waiver
from coordination.rules import (
    COMMON_PRACTICE,
    Card,
    Judgement,
    PackCard,
    Rule,
    Source,
    compare,
    given,
    rule,
)
from coordination.rules.judge import judge
from coordination.rules.pack import Pack, Packs

PLACE = Place(name="locker", line=1)


def pack_card(name: str = "mine", **changes: Any) -> PackCard:
    """A pack's card, every field filled with next to nothing."""
    fields = {"title": "t", "version": "1", "edition": "e", "in_force": "2026-01-01", "scope": "s"}
    return PackCard(name=name, api=1, **({"not_covered": ("x",)} | fields | changes))


def system(*waivers: Waiver, **changes: Any) -> System:
    """A system with nothing in it."""
    sections = ("places", "sources", "busbars", "equipment", "converters", "circuits", "conditions")
    fields: dict[str, Any] = {"name": "s", "line": 1, "file": "s.yaml", "nominal_voltage": 24.0}
    fields |= {"packs": ("mine",), "ampacity_basis": None, "waivers": waivers}
    return System(**(fields | {each: {} for each in sections} | changes))


def fuse(name: str) -> Element:
    return Element(
        name=name, line=7, kind="fuse", circuit="c", number=1, start="a", end="b", place=PLACE
    )


@dataclass
class FakeStudy:
    """Just enough of a study: subjects by kind, and what rules here ask for."""

    name: str = "normal"
    system: System = field(default_factory=system)
    problems: tuple[str, ...] = ()
    fuses: tuple[Any, ...] = (fuse("f1"),)

    def subjects(self, kind: str) -> tuple[Any, ...]:
        return self.fuses if kind in ("fuse", "device") else ()


def rule_of(judge_one: Any, name: str = "some-rule", each: Any = "fuse", **changes: Any) -> Rule:
    """A rule with a card filled with next to nothing."""
    fields = {"title": "t", "why": "w", "wrong": "w", "right": "r", "severity": "damage"}
    card = Card(name=name, **({"source": COMMON_PRACTICE} | fields | changes))
    return rule(card, each=each)(judge_one)


def crash(*_: Any) -> Any:
    raise KeyError("no such fuse")


def run(*rules: Rule, studies: Any = None, problems: Any = (), only: Any = ()) -> Any:
    return judge(
        studies or {"normal": FakeStudy()}, Packs((Pack(pack_card(), rules),), problems), only=only
    )


def amps(value: float) -> Any:
    return given("current", "I", value, "A", Source("part data", "x"))


def at_margin(margin: float) -> Judgement:
    return compare(amps(100.0), at_most=amps(100.0 * margin))
