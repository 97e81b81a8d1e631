"""How much conductor leaves a battery before its first device, way by way.

Lengths only: which length is allowed, is the rules' business.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from coordination.rules import (
    DEFINITION,
    Judgement,
    Source,
    Unknown,
    Value,
    derive,
    fail,
    given,
    note,
    unproven,
)
from coordination.rules.kit.zone import Zone, zone
from fusewright_us_small_craft.cranking import is_cranking
from fusewright_us_small_craft.options import asked, stated

#: A conductor that leaves the exempt main feed of a starter has its device this close to it [m].
TAP = 7 * 0.0254
_FILE = Source("system file", "lengths along the conductors")


@dataclass(frozen=True, slots=True)
class Run:
    """One unprotected conductor [m] from a battery, up to a device or along itself.

    sheathed -- the whole way; None where something on it does not say; unsaid -- what does not
    tap      -- length [m] since it left a starter's main feed; None where it never was on one
    """

    length: Value
    sheathed: bool | None
    unsaid: tuple[str, ...] = ()
    tap: float | None = None

    @property
    def tapped(self) -> bool:
        """Whether it leaves an exempt main feed and meets its device close to it."""
        return self.tap is not None and self.tap <= TAP


def feeds_nothing(inside: Zone) -> bool:
    """Whether nothing is joined to the battery at all."""
    return not inside.met and len(inside.lengths) < 2


def runs(battery: Any, inside: Zone, study: Any) -> Iterator[Run]:
    """The run to each device, and each conductor on the way by its own far end."""
    exempt = {cable.name for cable, _ in inside.cables if is_cranking(cable, study)}
    cables = [(cable, length) for cable, length in inside.cables if cable.name not in exempt]
    taps = zone(battery.name, study, free=lambda element: element.name in exempt)
    since = {each.name: length for each, length in (*taps.cables, *taps.met)}
    for cable, length in cables:
        drawn = given(f"conductor up to the far end of {cable.name}", "l", length, "m", _FILE)
        yield Run(drawn, *_sheath(cables), _tap(cable, length, since))
    for device, length in inside.met:
        cover = _cover(device, length, inside.cables)
        yield Run(run_to(device, length), *cover, _tap(device, length, since))


def without_device(inside: Zone, study: Any) -> Iterator[Judgement]:
    """What a battery feeds with no device between; a starter may be fed so."""
    bare = [each.name for each in inside.loads(study) if not getattr(each, "cranking", False)]
    starters = any(getattr(each, "cranking", False) for each in inside.loads(study))
    limited = [source.name for source in inside.limited(study)]
    if bare or not (inside.met or starters or limited):
        yield fail(f"no device on the way to {', '.join(bare) or 'what it feeds'}")
    if limited:
        yield _limited(", ".join(limited), stated(study, "self_limiting"))


def run_to(device: Any, drawn: float) -> Value:
    """Conductor length [m] to a device: what is drawn, or the stated distance if longer."""
    quantity = f"conductor up to {device.name}"
    if device.distance is None:
        if not drawn:
            return Unknown(quantity, (f"{device.name}: distance from the source",))
        return given(quantity, "l", drawn, "m", _FILE)
    source = Source("system file", f"{device.name}: distance")
    text = device.written.get("distance", "")
    own = given("distance stated", "l_s", device.distance, "m", source, text)
    if drawn <= device.distance:
        return own
    cables = given("cables drawn", "l_d", drawn, "m", _FILE)
    return derive(max, quantity, "l", "m", "max(l_s, l_d)", own, cables, source=DEFINITION)


def _limited(names: str, limiting: bool | None) -> Judgement:
    """A charging source with no device between: only one that limits itself may do so."""
    if limiting is None:
        return unproven(asked("self_limiting"), reason=f"no device towards {names}")
    if limiting:
        return note(f"no device towards {names}, stated to be self-limiting", source=_FILE)
    return fail(f"no device on the way to {names}")


def _tap(element: Any, length: float, since: dict[str, float]) -> float | None:
    """Length since the main feed, its own distance included; None if it was never on one."""
    left = since.get(element.name, length)
    return None if left >= length else max(left, element.distance or 0.0)


def _sheath(cables: Any) -> tuple[bool | None, tuple[str, ...]]:
    """Of all conductors around: a bare one makes the way bare, a silent one leaves it open."""
    if any(cable.sheathed is False for cable, _ in cables):
        return False, ()
    silent = tuple(f"{cable.name}: sheathed" for cable, _ in cables if cable.sheathed is None)
    return (None, silent) if silent else (True, ())


def _cover(device: Any, drawn: float, cables: Any) -> tuple[bool | None, tuple[str, ...]]:
    """Of the whole way to a device: what is drawn, and what its stated distance adds to that."""
    if not drawn:
        return _own(device)
    along, unsaid = _sheath(cables)
    if device.distance is None or device.distance <= drawn:
        return along, unsaid
    rest, silent = _own(device)
    if along is False or rest is False:
        return False, ()
    return (None, (*unsaid, *silent)) if unsaid or silent else (True, ())


def _own(device: Any) -> tuple[bool | None, tuple[str, ...]]:
    if device.sheathed is None:
        return None, (f"{device.name}: sheathed",)
    return device.sheathed, ()
