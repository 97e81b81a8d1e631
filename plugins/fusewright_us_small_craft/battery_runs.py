"""How much conductor leaves a battery before its first device, way by way.

Lengths only: which length is allowed, is the rules' business.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from coordination.rules import (
    Judgement,
    Source,
    Value,
    fail,
    given,
    note,
    unproven,
)
from coordination.rules.kit.runs import all_sheathed, run_to, sheathed_up_to
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
    own = [(cable, length) for cable, length in inside.cables if cable.name not in exempt]
    taps = zone(battery.name, study, free=lambda element: element.name in exempt)
    since = {each.name: length for each, length in (*taps.cables, *taps.met)}
    sheath = all_sheathed(cable for cable, _ in own)
    for cable, length in own:
        drawn = given(f"conductor up to the far end of {cable.name}", "l", length, "m", _FILE)
        yield Run(drawn, *sheath, _tap(cable, length, since))
    cables = [cable for cable, _ in inside.cables]
    for device, length in inside.met:
        sheath = sheathed_up_to(device, length, cables)
        yield Run(run_to(device, length), *sheath, _tap(device, length, since))


def without_device(inside: Zone, study: Any) -> Iterator[Judgement]:
    """What a battery feeds with no device between; a starter may be fed so."""
    bare = [each.name for each in inside.loads(study) if not getattr(each, "cranking", False)]
    starters = any(getattr(each, "cranking", False) for each in inside.loads(study))
    limited = [source.name for source in inside.limited(study)]
    if bare or not (inside.met or starters or limited):
        yield fail(f"no device on the way to {', '.join(bare) or 'what it feeds'}")
    if limited:
        yield _limited(", ".join(limited), stated(study, "self_limiting"))


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
