"""What protection bounds a cable's lasting current to; drawings in words, sums by hand."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

import pytest
from fusewright_fundamentals.overload_bound import Bare, overload_bound

from catalogue.parts import Band, Battery, Breaker, Channel, Fuse
from coordination.model import Converter, Element, Place, Source
from coordination.rules import Derived, Unknown

PLACE = Place(name="locker", line=1)


@dataclass
class Side:
    """One end's protection, as a study tells it."""

    devices: tuple[Element, ...] = ()
    exposed: tuple[Source, ...] = ()
    limited: tuple[Any, ...] = ()


@dataclass
class Drawing:
    """As much of a study as the bound asks for."""

    start: Side = field(default_factory=Side)
    end: Side = field(default_factory=Side)
    series: tuple[Element, ...] = ()

    def protectors(self, cable: Any, end: str) -> Side:  # noqa: ARG002
        return self.start if end == "start" else self.end

    def series_devices(self, cable: Any) -> tuple[Element, ...]:  # noqa: ARG002
        return self.series


def device(
    name: str, rating: float | None, kind: str = "fuse", trip: float | None = None
) -> Element:
    part: Any = Fuse(id=f"part-{name}", kind="fuse", rated_current=rating)
    if kind == "breaker":
        part = Breaker(id=f"part-{name}", kind="breaker", rated_current=rating)
    if kind == "channel":
        part = Channel(id=f"part-{name}", kind="channel", rated_current=rating, trip_current=trip)
    return Element(
        name=name, line=1, kind=kind, circuit="c", number=1,
        start="a", end="b", place=PLACE, part=part,
    )  # fmt: skip


CABLE = Element(
    name="c/2", line=1, kind="cable", circuit="c", number=2, start="b", end="d", place=PLACE
)
BATTERY = Source(
    name="pack", line=1, place=PLACE,
    part=Battery(id="p", kind="battery", resistance=Band(0.001, 0.002)),
)  # fmt: skip
ALTERNATOR = Source(name="alternator", line=1, place=PLACE, current_limited=80.0, voltage=28.2)
CHARGER = Converter(name="dc-dc", line=1, place=PLACE, output_current=40.0)
MAIN, BRANCH, OTHER = device("main", 300.0), device("branch", 60.0), device("other", 150.0)

KNOWN = {
    "one fuse in the circuit": (Drawing(Side((MAIN,)), series=(MAIN,)), 300),
    "the smaller of two in the circuit": (Drawing(Side((MAIN,)), series=(MAIN, BRANCH)), 60),
    "the feed of the bus it starts from": (Drawing(Side((MAIN,))), 300),
    "both feeds of the bus it starts from": (Drawing(Side((MAIN, OTHER))), 450),
    "fed at both ends: the larger counts": (Drawing(Side((MAIN,)), Side((BRANCH,))), 300),
    "own fuse bounds both directions": (Drawing(Side((BRANCH,)), Side((MAIN,)), (BRANCH,)), 60),
    "own fuse larger than the only feed": (Drawing(Side((BRANCH,)), series=(OTHER,)), 60),
    "only self-limiting sources": (Drawing(Side(limited=(ALTERNATOR, CHARGER))), 120),
    "a fuse and an alternator at one end": (Drawing(Side((BRANCH,), limited=(ALTERNATOR,))), 140),
    "an alternator here, a fused battery there": (
        Drawing(Side(limited=(ALTERNATOR,)), Side((OTHER,)), (OTHER,)), 150,
    ),
    "a bare battery, but a fuse farther along": (
        Drawing(Side(exposed=(BATTERY,)), series=(BRANCH,)), 60,
    ),
}  # fmt: skip


@pytest.mark.parametrize("drawing", KNOWN)
def test_bound(drawing: str) -> None:
    study, expected = KNOWN[drawing]
    bound = overload_bound(CABLE, study)
    assert isinstance(bound, Derived)
    assert bound.value == expected


def test_bare_battery_is_named_even_beside_a_fuse_at_the_other_end() -> None:
    bound = overload_bound(CABLE, Drawing(Side(exposed=(BATTERY,)), Side((MAIN,))))
    assert bound == Bare(("pack",))


def test_no_source_no_bound() -> None:
    assert overload_bound(CABLE, Drawing()) is None


def test_electronics_bound_to_where_they_trip() -> None:
    """A 10 A output that trips at 13 A lets 13 A pass."""
    output = device("output", 10.0, "channel", trip=13.0)
    bound = overload_bound(CABLE, Drawing(Side((output,)), series=(output,)))
    assert isinstance(bound, Derived)
    assert bound.value == 13


@pytest.mark.parametrize(
    ("unrated", "missing"),
    [
        (device("main", None), "part-main: rated_current"),
        (device("main", None, "breaker"), "part-main: rated_current"),
        (device("out", 10.0, "channel"), "part-out: trip_current"),
    ],
)
@pytest.mark.parametrize("where", ["series", "feed"])
def test_unstated_rating_is_unknown(unrated: Element, missing: str, where: str) -> None:
    series = (unrated,) if where == "series" else ()
    bound = overload_bound(CABLE, Drawing(Side((unrated,)), series=series))
    assert isinstance(bound, Unknown)
    assert bound.missing == (missing,)
