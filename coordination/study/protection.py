"""Which devices stand between a conductor's end, or a busbar, and the sources that feed it."""

from __future__ import annotations

from coordination.model import Busbar, Converter, Element
from coordination.model import Source as Supply
from coordination.study.figures import Figures
from coordination.study.kinds import BranchDevices, Protection
from coordination.study.reach import Reach, Zone
from coordination.trace import Derived, Source, Unknown, Value, unknowns

ALONG = Source("system file", "lengths along the conductors")


class Guards:
    """The devices around the things of one network."""

    def __init__(self, figures: Figures, reach: Reach) -> None:
        self.figures, self.reach, self.network = figures, reach, figures.network

    def of(self, subject: Element | Busbar, end: str | None) -> Protection:
        """What protects one end of a subject. Raises ValueError for an end it does not have."""
        if isinstance(subject, Busbar):
            point, without = self.network.index[subject.name], -1
        else:
            if end not in ("start", "end"):
                raise ValueError(f"{subject.name} has a start and an end, no {end!r}")
            name = subject.start if end == "start" else subject.end
            point = self.network.index[name]
            without = self.figures.branch_of.get(subject.name, -1)
        zone = self.reach.zone(point, without)
        fed = self._fed(zone, without)
        batteries: list[Supply] = []
        limited: list[Supply | Converter] = []
        for place in zone.lengths:
            here = self.reach.standing.get(place)
            if here:
                batteries += here[0]
                limited += here[1]
        devices = tuple(self.network.branches[branch].element for branch, _, _ in fed)
        return Protection(
            _once(devices), tuple(batteries), tuple(limited), lambda: self._stub(zone, fed)
        )

    def around(self, busbar: Busbar) -> BranchDevices:
        """The first devices around a busbar, by whether a source stands behind them."""
        zone = self.reach.zone(self.network.index[busbar.name])
        fed = {branch for branch, _, _ in self._fed(zone, -1)}
        upstream = [self.network.branches[b].element for b, _, _ in zone.devices if b in fed]
        others = [self.network.branches[b].element for b, _, _ in zone.devices if b not in fed]
        return BranchDevices(_once(tuple(upstream)), _once(tuple(others)))

    def _fed(self, zone: Zone, without: int) -> list[tuple[int, int, int]]:
        return [
            device
            for device in zone.devices
            if device[2] not in zone.lengths and self.reach.fed(device[1], device[0], without, zone)
        ]

    def _stub(self, zone: Zone, fed: list[tuple[int, int, int]]) -> Value:
        """Conductor length [m] between the sources and the devices, the longest of several."""
        lengths = [self._distance(branch, far) for branch, _, far in fed]
        standing = [
            length for place, length in zone.lengths.items() if place in self.reach.standing
        ]
        if standing:
            lengths.append(
                Derived(
                    "conductor length from the nearest source, no device between",
                    "L",
                    min(standing),
                    "m",
                    source=ALONG,
                )
            )
        missing = unknowns(lengths)
        if missing:
            return Unknown("unprotected conductor length", missing)
        known = [length for length in lengths if isinstance(length, Derived)]
        if not known:
            return Derived("unprotected conductor length: no source", "L", 0.0, "m", source=ALONG)
        return max(known, key=lambda length: length.value)

    def _distance(self, branch: int, far: int) -> Value:
        """Conductor length [m] from the nearest source behind a device to the device."""
        element = self.network.branches[branch].element
        drawn = self.reach.nearest_source(far, branch) or 0.0
        quantity = f"conductor length from the source to {element.name}"
        if element.distance is not None and element.distance >= drawn:
            return Derived(
                quantity,
                "L",
                element.distance,
                "m",
                source=Source("system file", f"line {element.line}"),
                written=element.written.get("distance", ""),
            )
        if drawn:
            return Derived(quantity, "L", drawn, "m", source=ALONG)
        return Unknown(quantity, (f"{element.name}: distance from the source",))


def _once(elements: tuple[Element, ...]) -> tuple[Element, ...]:
    """Each element once, by name."""
    return tuple({element.name: element for element in elements}.values())
