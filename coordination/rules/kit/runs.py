"""How much conductor lies before a device, and whether it is sheathed: what is stated or drawn."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from coordination.rules import DEFINITION, Source, Unknown, Value, derive, given

_FILE = Source("system file", "lengths along the conductors")


def run_to(device: Any, drawn: float, *, own_end: bool = True) -> Value:
    """Conductor length [m] to a device: what is drawn, or the stated distance if longer.

    drawn   -- length of the cables on the way [m]
    own_end -- whether `distance` is told from this side; if not, what is drawn here counts
    """
    quantity = f"conductor up to {device.name}"
    if drawn and (device.distance is None or not own_end):
        return given(quantity, "l", drawn, "m", _FILE)
    if device.distance is None:
        return Unknown(quantity, (f"{device.name}: distance from the source",))
    own = _distance(device, "distance stated", "l_s")
    if drawn <= device.distance:
        return own
    cables = given("cables drawn", "l_d", drawn, "m", _FILE)
    return derive(max, quantity, "l", "m", "max(l_s, l_d)", own, cables, source=DEFINITION)


def run_between(battery: Any, device: Any, drawn: float) -> Value:
    """Conductor length [m] from a battery to a device, the cables on the way drawn so long [m].

    The stated distance, or what is drawn if that is longer; Unknown where neither is there.
    """
    quantity = f"conductor from {battery.name} to {device.name}"
    if device.distance is not None and device.distance >= drawn:
        return _distance(device, quantity, "l")
    if drawn:
        return given(quantity, "l", drawn, "m", Source("system file", "lengths of the cables"))
    return Unknown(quantity, (f"{device.name}: distance from {battery.name}",))


def all_sheathed(parts: Iterable[Any]) -> tuple[bool | None, tuple[str, ...]]:
    """Whether all of these are, and what does not say.

    A bare one makes the way bare, a silent one leaves it open.
    """
    said = [(part.name, part.sheathed) for part in parts]
    if any(each is False for _, each in said):
        return False, ()
    silent = tuple(f"{name}: sheathed" for name, each in said if each is None)
    return (None, silent) if silent else (True, ())


def sheathed_up_to(
    device: Any, drawn: float, cables: Sequence[Any]
) -> tuple[bool | None, tuple[str, ...]]:
    """Whether the whole way to a device is: the cables drawn, and what its distance adds to them.

    drawn -- length of the cables on the way [m]
    """
    if not drawn:
        return all_sheathed([device])
    beyond = device.distance is not None and device.distance > drawn
    return all_sheathed([*cables, device] if beyond else cables)


def _distance(device: Any, quantity: str, symbol: str) -> Value:
    source = Source("system file", f"{device.name}: distance")
    words = device.written.get("distance", "")
    return given(quantity, symbol, device.distance, "m", source, words)
