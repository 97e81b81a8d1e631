"""The smallest conductors have a largest device of their own, whatever their ampacity."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import product
from typing import Any

from coordination.rules import (
    Card,
    Derived,
    Judgement,
    Rule,
    Source,
    Unknown,
    Value,
    capped,
    compare,
    given,
    rule,
    unproven,
)
from coordination.rules.kit.editions import dated
from coordination.rules.kit.installed import installations
from coordination.rules.kit.tables import read_at
from fusewright_us_premises import tables
from fusewright_us_premises.ampacity import listed_size
from fusewright_us_premises.editions import Y2023, Edition
from fusewright_us_premises.guard import Bare, guards
from fusewright_us_premises.tables import Limit

CARD = Card(
    name="small-conductors",
    title="Small conductors have small devices",
    why="240.4(D): after all corrections the device is at most 15 A for 14 AWG, 20 A for 12 AWG, "
    "30 A for 10 AWG copper (and 7 A for 18, 10 A for 16 AWG, from memory). Motor and other "
    "special circuits of 240.4(E) and (G) are not told apart.",
    wrong="A 40 A fuse on 10 AWG because its 90 °C column says 40 A.",
    right="The device of this list, or 8 AWG.",
    severity="fire",
    basis="standard",
    source=Y2023.source("240.4(D)", "2023"),
)

#: Conductors from this size on, 8 AWG [m²], are not small ones; halfway to it none is listed.
NOT_SMALL = 8.3e-6


def of(edition: Edition) -> Rule:
    """The rule in this edition."""
    source = edition.source("240.4(D)", "2023")

    @rule(dated(CARD, source), each="cable")
    def small_conductors(cable: Any, study: Any) -> Iterator[Judgement]:
        """The device's rating against the list, for each leg thinner than 8 AWG."""
        found = guards(cable, study)
        if isinstance(found, Bare):
            return
        for each, leg in product(found, installations(cable, study)):
            yield from device_by_size(each.current, leg.area, tables.small_conductors(), source)

    return small_conductors


def device_by_size(
    device: Value, area: Value, rows: Sequence[Limit], source: Source
) -> Iterator[Judgement]:
    """A device against the largest that a list allows for a conductor's size; none for larger."""
    if isinstance(area, Unknown):
        yield unproven(*area.missing)
        return
    if area.value >= NOT_SMALL:
        return
    size = listed_size([row.size for row in rows], area.value)
    if size is None:
        yield unproven(f"{source.clause}: a device for conductors below {rows[0].size.words}")
        return
    row = next(each for each in rows if each.size == size)
    figure = Source(source.document, source.clause, read=source.read and row.read)
    yield capped(compare(device, at_most=_allowed(row, area, figure)), figure)


def _allowed(row: Limit, area: Derived, source: Source) -> Value:
    listed = given(f"largest device for {row.size.words}", "I_listed", row.device, "A", source)
    at = given(f"area of {row.size.words}", "S_listed", row.size.area, "m²", source)
    return read_at(listed, at, area, "largest device for its size", "I_max")
