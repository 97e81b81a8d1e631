"""What a cable's protection must open at, in its conventional time, the cable must stand."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from coordination.rules import Card, Judgement, Source, Unknown, Value, compare, derive, given, rule
from fusewright_fundamentals.cranking_path import cranking_note
from fusewright_fundamentals.overload_bound import Bare, device_limit, overload_bound

CARD = Card(
    name="overload-clears",
    title="A lasting overload is switched off",
    why="A device rated like its cable may carry 1.3 or 1.6 times as much for an hour; up to 1.45 "
    "times its ampacity a cable ages but does not fail. The current at which a device must open "
    "within its conventional time is the first point of its latest clearing.",
    wrong="A fuse of 160 A that need not open below 256 A, on a cable for 160 A.",
    right="A smaller device, or one of a family that opens nearer its rating; a larger cable.",
    severity="fire",
    source=Source("IEC 60364-4-43:2008", clause="433.1, I2 <= 1.45 Iz", read=False),
)

FACTOR = 1.45
#: Longest conventional time [s] of any family: 4 h for gG fuses above 400 A.
CONVENTIONAL = 4 * 3600.0


@rule(CARD, each="cable")
def overload_clears(cable: Any, study: Any) -> Iterator[Judgement]:
    """Conventional opening current against 1.45 times the ampacity of each leg."""
    bound = overload_bound(cable, study, _conventional(study))
    if bound is None or isinstance(bound, Bare) or cranking_note(cable, study):
        return
    for leg in study.legs(cable):
        if leg.part is not None:
            limit = _limit(study.ampacity(cable, leg))
            yield compare(bound, at_most=limit, reason=f"{leg.name} leg")


def _limit(ampacity: Value) -> Value:
    factor = given("allowed in the conventional time", "a", FACTOR, "", CARD.source)
    symbol = "I_z" if isinstance(ampacity, Unknown) else ampacity.symbol
    return derive(
        lambda share, current: share * current, "largest conventional current", "I_2max", "A",
        f"a × {symbol}", factor, ampacity, source=CARD.source,
    )  # fmt: skip


def _conventional(study: Any) -> Callable[[Any, str], Value]:
    def limit(device: Any, symbol: str) -> Value:
        if device.kind == "channel":
            return device_limit(device, symbol)
        quantity = f"conventional opening current of {device.name}"
        opening = study.opening(device)
        if isinstance(opening, Unknown):
            return Unknown(quantity, opening.missing)
        what = "maximum trip curve" if device.kind == "breaker" else "maximum clearing curve"
        points = [each for each in opening.slowest.points if each[1] <= CONVENTIONAL]
        if not points:
            return Unknown(quantity, (f"{device.part.id}: {what}",))
        source = Source("part data", clause=f"{device.part.id}: first point of its {what}")
        return given(quantity, symbol, points[0][0], "A", source)

    return limit
