"""Findings made by hand: the report is tested apart from the rules that would make them."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from types import SimpleNamespace
from typing import Any

import pytest

from coordination.model import System, Waiver
from coordination.rules import Card, Source, Unknown, derive, given
from coordination.rules.finding import VERDICTS, Finding, Findings
from coordination.rules.pack import Pack
from coordination.rules.problem import RunProblem
from coordination.rules.rule import Rule
from coordination.trace import Derived
from tests.coordination.rules.fakes import pack_card, system

CARD = Card(
    name="interrupt-rating",
    title="The device can break the fault current",
    why="A fuse that cannot break the current bursts.",
    wrong="A strip fuse on a lithium bank.",
    right="Fit a device rated for the fault current at this voltage.",
    severity="fire",
    source=Source("UL 248-1:2011", "clause 8", read=False),
)
FILE = SimpleNamespace(source=Source("system file", "port pack"))


def fault_current() -> Derived:
    """27.2 V over 3.20 mΩ are 8.50 kA: 27.2 / 0.0032 = 8500."""
    emf = given("emf", "E", 27.2, "V", Source("part data", "pack-230: emf"), "27.2 V")
    ohms = given("resistance", "R", 0.0032, "Ω", Source("part data", "pack-230: resistance"))
    current = derive(lambda e, r: e / r, "fault current", "I", "A", "E / R", emf, ohms)
    assert isinstance(current, Derived)
    return current


def rating(amps: float = 5000.0) -> Derived:
    return given("interrupt rating at 32 V", "I_cn", amps, "A", Source("part data", "fuse-sb-200"))


def made(verdict: str = "fail", **changes: Any) -> Finding:
    """A finding on port feed/1; by default the fail of DESIGN's example."""
    fields: dict[str, Any] = {
        "rule": "fundamentals/interrupt-rating",
        "card": CARD,
        "subject": "port feed/1",
        "kind": "fuse",
        "line": 31,
        "condition": "normal",
        "verdict": verdict,
        "severity": "fire",
        "source": CARD.source,
        "found": fault_current(),
        "relation": "<=",
        "required": rating(),
        "margin": 5000 / 8500,
        "part": "fuse-sb-200",
    }
    return Finding(**(fields | changes))


def a_pass(subject: str = "main feed/1", **changes: Any) -> Finding:
    return made(
        "pass", subject=subject, required=rating(20e3), margin=20e3 / 8500, line=40, **changes
    )


def an_unproven(**changes: Any) -> Finding:
    unknown = Unknown("interrupt rating", ("fuse-x: interrupt_ratings at >= 28.8 V",))
    missing = unknown.missing
    fields = {"subject": "aux/1", "required": unknown, "margin": None, "missing": missing} | changes
    return made("unproven", **fields)


def a_note(**changes: Any) -> Finding:
    fields = {"subject": "start/1", "found": None, "relation": "", "required": None, "margin": None}
    return made("note", reason="cranking conductor", **(fields | changes))


def a_waived() -> Finding:
    waiver = Waiver(
        rule="fundamentals/interrupt-rating",
        subject="old/1",
        reason="replaced next month",
        by="yard foreman",
        date=date(2026, 3, 2),
        line=60,
    )
    return made("waived", subject="old/1", waiver=waiver)


@dataclass
class FakeStudy:
    """A study of two points and one fuse, with one number unknown."""

    network: Any
    fuse: Any

    def subjects(self, kind: str) -> tuple[Any, ...]:
        return (self.fuse,) if kind in ("element", "fuse", "device") else ()

    def fault_max(self, name: str) -> Any:
        return given(
            "fault current", "I", {"pack": 8500.0, "main bus": 8123.4}[name], "A", FILE.source
        )

    def fault_min(self, name: str) -> Any:  # noqa: ARG002
        return Unknown("fault current", ("switch-1: resistance",))

    def voltage_max(self, name: str) -> Any:  # noqa: ARG002
        return given("voltage", "U", 28.8, "V", FILE.source)

    def time_constant(self, name: str) -> Any:  # noqa: ARG002
        return given("time constant", "τ", 0.0004, "s", FILE.source)

    def load_voltage(self, name: str) -> Any:  # noqa: ARG002
        return given("voltage", "U", 26.1, "V", FILE.source)

    def duty(self, element: Any) -> Any:  # noqa: ARG002
        return given("duty", "I", 8500.0, "A", FILE.source)

    def load(self, element: Any) -> Any:  # noqa: ARG002
        return given("load", "I", 152.0, "A", FILE.source)

    def fault_min_through(self, element: Any) -> Any:  # noqa: ARG002
        return Unknown("fault current", ("switch-1: resistance",))


def fake_study() -> FakeStudy:
    fuse = SimpleNamespace(name="port feed/1", kind="fuse", part=SimpleNamespace(id="fuse-sb-200"))
    return FakeStudy(SimpleNamespace(points=("pack", "main bus")), fuse)


def a_pack() -> Pack:
    card = pack_card(
        "fundamentals", title="Physics", version="0.1.0", edition="2026", scope="DC",
        not_covered=("surges",),
    )  # fmt: skip
    return Pack(card, (Rule(CARD, ("device",), lambda *_: None),))


def a_system(**changes: Any) -> System:
    fields = {"name": "Tidewrack house bank", "file": "tender.yaml", "packs": ("fundamentals",)}
    return system(**(fields | changes))


def findings_of(
    *findings: Finding, problems: tuple[RunProblem, ...] = (), **changes: Any
) -> Findings:
    counts = {verdict: sum(one.verdict == verdict for one in findings) for verdict in VERDICTS}
    bad = "fail" if counts["fail"] else "unproven" if counts["unproven"] or not findings else "pass"
    fields: dict[str, Any] = {
        "system": a_system(),
        "verdict": bad,
        "counts": counts,
        "packs": (a_pack(),),
        "problems": problems,
        "findings": findings,
        "studies": {"normal": fake_study()},
    }
    return Findings(**(fields | changes))


@pytest.fixture
def make() -> Any:
    """Every maker of this file, by name."""
    return SimpleNamespace(
        fail=made,
        passed=a_pass,
        unproven=an_unproven,
        note=a_note,
        waived=a_waived,
        findings=findings_of,
        system=a_system,
        pack=a_pack,
        study=fake_study,
        card=CARD,
        current=fault_current,
        rating=rating,
    )


@pytest.fixture
def every_verdict(make: Any) -> Findings:
    """One finding of each verdict."""
    found: Callable[..., Findings] = make.findings
    return found(make.fail(), make.passed(), make.unproven(), make.note(), make.waived())
