"""How much conductor leaves a source before its first device, way by way; lengths only."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import Any

from coordination.rules import DEFINITION, Source, Unknown, Value, derive, given
from coordination.rules.kit.joined import Which, nothing
from coordination.rules.kit.zone import Zone

_FILE = Source("system file", "lengths along the conductors")


@dataclass(frozen=True, slots=True)
class Run:
    """One unprotected conductor [m], and its sheath.

    sheathed -- the whole way; None where something on it does not say; unsaid -- what does not
    """

    length: Value
    sheathed: bool | None
    unsaid: tuple[str, ...] = ()


def runs(inside: Zone, exempt: Which = nothing) -> Iterator[Run]:
    """The run to each device, and each conductor on the way by its own far end.

    exempt -- elements left out of it; the zone counts no length of theirs

    A bare conductor anywhere around makes every way bare: it may be the one that chafes.
    """
    drawn = [(cable, length) for cable, length in inside.cables if not exempt(cable)]
    cables = [cable for cable, _ in drawn]
    cover, unsaid = _sheath(cables)
    for cable, length in drawn:
        what = f"conductor up to the far end of {cable.name}"
        yield Run(given(what, "l", length, "m", _FILE), cover, unsaid)
    for device, length in inside.met:
        if exempt(device):
            continue
        beyond = device.distance is not None and device.distance > length
        parts = [*cables, device] if length and beyond else cables if length else [device]
        yield Run(run_to(device, length), *_sheath(parts))


def run_to(device: Any, drawn: float, *, own_end: bool = True) -> Value:
    """Conductor length [m] to a device: what is drawn, or the stated distance if longer.

    own_end -- whether `distance` is told from this side; if not, what is drawn here counts
    """
    quantity = f"conductor up to {device.name}"
    if drawn and (device.distance is None or not own_end):
        return given(quantity, "l", drawn, "m", _FILE)
    if device.distance is None:
        return Unknown(quantity, (f"{device.name}: distance from the source",))
    source = Source("system file", f"{device.name}: distance")
    words = device.written.get("distance", "")
    own = given("distance stated", "l_s", device.distance, "m", source, words)
    if drawn <= device.distance:
        return own
    cables = given("cables drawn", "l_d", drawn, "m", _FILE)
    return derive(max, quantity, "l", "m", "max(l_s, l_d)", own, cables, source=DEFINITION)


def _sheath(parts: Iterable[Any]) -> tuple[bool | None, tuple[str, ...]]:
    said = [(part.name, part.sheathed) for part in parts]
    if any(sheathed is False for _, sheathed in said):
        return False, ()
    silent = tuple(f"{name}: sheathed" for name, sheathed in said if sheathed is None)
    return (None, silent) if silent else (True, ())
