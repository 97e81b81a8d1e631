"""The single events that may strike a network: what each opens, and which sources it takes out.

Every event is one cause. Batteries with electronics that are joined have one voltage, so they reach
the same limit together: that all of them open is one event too.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coordination.model import PROTECTIVE, Element
from coordination.network import Network
from coordination.study.always_live import by_hand

#: Chemistries whose batteries have electronics that disconnect them, drawn or not.
WITH_ELECTRONICS = ("lfp", "nmc", "lto", "sodium-ion")

#: What may happen, by kind, in a few words.
KINDS = {
    "device": "{name} opens",
    "channel": "{name} is off",
    "switch": "{name} is opened",
    "contactor": "{name} opens",
    "trip": "{name} trips",
    "joint trip": "{name} trip together",
    "source": "{name} is lost",
    "converter": "{name} stops",
    "all switches": "all switches off",
}


class Event(NamedTuple):
    """One thing that happens.

    kind   -- a key of KINDS; name -- of what it happens to
    opened -- names of the closed elements that it opens; lost -- sources and converters it stops
    """

    kind: str
    name: str
    opened: tuple[str, ...] = ()
    lost: tuple[str, ...] = ()

    @property
    def told(self) -> str:
        """What happens, in a few words."""
        return KINDS[self.kind].format(name=self.name)


def is_off(name: str, network: Network) -> bool:
    """Whether a source or converter is said to draw nothing in this condition: it gives nothing."""
    return network.condition.draw.get(name) == 0.0


def events(network: Network, pieces: dict[str, int]) -> Iterator[Event]:
    """Every event of one condition, in the order of KINDS and of the file.

    pieces -- battery to the connected piece of the network it stands in
    """
    closed = [branch.element for branch in network.branches]
    yield from (Event("device", e.name, (e.name,)) for e in closed if e.kind in PROTECTIVE)
    yield from (Event("channel", e.name, (e.name,)) for e in closed if e.kind == "channel")
    manual = [e.name for e in closed if by_hand(e)]
    yield from (Event("switch", name, (name,)) for name in manual)
    yield from _trips(network, closed, pieces)
    feeding = [feed.source.name for feed in network.feeds]
    feeding += [each.source.name for each in network.injections]
    for name in feeding:
        if is_off(name, network):
            continue
        kind = "converter" if name in network.system.converters else "source"
        yield Event(kind, name, (), (name,))
    if manual:
        yield Event("all switches", "all switches off", tuple(manual))


def _trips(network: Network, closed: list[Element], pieces: dict[str, int]) -> Iterator[Event]:
    """Contactors alone where a source has several, each source's, each joined bank's."""
    contactors: dict[str, list[str]] = {}
    for element in closed:
        if element.kind == "disconnect" and element.operated_by is not None:
            contactors.setdefault(element.operated_by, []).append(element.name)
    for several in contactors.values():
        if len(several) > 1:
            yield from (Event("contactor", name, (name,)) for name in several)
    internal = [name for name in internal_electronics(network) if name in pieces]
    single = [Event("trip", name, tuple(several)) for name, several in contactors.items()]
    single += [Event("trip", name, (), (name,)) for name in internal]
    yield from single
    banks: dict[int, list[Event]] = {}
    for event in single:
        if event.name in pieces:
            banks.setdefault(pieces[event.name], []).append(event)
    for bank in banks.values():
        if len(bank) > 1:
            yield Event(
                "joint trip",
                " + ".join(event.name for event in bank),
                tuple(name for event in bank for name in event.opened),
                tuple(name for event in bank for name in event.lost),
            )


def internal_electronics(network: Network) -> tuple[str, ...]:
    """Batteries of a chemistry with electronics for which no contactor is drawn: it is inside."""
    drawn = {element.operated_by for element in network.system.elements()}
    return tuple(
        source.name
        for source in network.system.sources.values()
        if source.part is not None
        and source.part.chemistry in WITH_ELECTRONICS
        and source.name not in drawn
    )
