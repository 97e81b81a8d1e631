"""How much conductor leaves a source before its first device, way by way; lengths only."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from coordination.rules import Source, Value, given
from coordination.rules.kit.joined import Which, nothing
from coordination.rules.kit.runs import all_sheathed, run_to, sheathed_up_to
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
    cover, unsaid = all_sheathed(cables)
    for cable, length in drawn:
        what = f"conductor up to the far end of {cable.name}"
        yield Run(given(what, "l", length, "m", _FILE), cover, unsaid)
    for device, length in inside.met:
        if exempt(device):
            continue
        yield Run(run_to(device, length), *sheathed_up_to(device, length, cables))
