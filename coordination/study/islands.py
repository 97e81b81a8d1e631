"""Connected pieces of the network: their voltages, and what is odd about them as a whole."""

from __future__ import annotations

from coordination.model import Converter, Element
from coordination.named import Named
from coordination.network import Feed, Injection
from coordination.network.stated import of_part
from coordination.study.deferred import renamed
from coordination.study.figures import Figures
from coordination.study.loads import Loads
from coordination.trace import DEFINITION, Derived, Source, Unknown, Value, unknowns

HIGHEST = Source("definition", "highest system voltage: full charge, charging, charging sources")
#: Sources whose voltages differ by more than this share do not belong on one conductor.
APART = 0.20
#: A battery that differs from the system's nominal voltage by this share is not of that voltage:
#: the smallest slip is two batteries of 24 V and 12 V in series.
ANOTHER = 1 / 3
#: A charger may exceed the nominal voltage of what it charges by this share.
CHARGING = 0.25
_USUAL = (12.0, 24.0, 36.0, 48.0)


class Islands:
    """Voltages by connected piece."""

    def __init__(self, figures: Figures) -> None:
        self.figures, self.network = figures, figures.network
        self._highest: dict[int, Value] = {}
        self._nominal: dict[int, Derived | tuple[str, ...]] = {}
        self._bank: dict[int, Value | None] = {}

    def highest(self, subject: str | Named) -> Value:
        """Highest voltage [V] at a point, or of the two ends of an element or converter."""
        if isinstance(subject, Element):
            ends = (subject.start, subject.end)
        elif isinstance(subject, Converter):
            ends = (f"{subject.name}.input", f"{subject.name}.output")
        else:
            name = subject if isinstance(subject, str) else subject.name
            ends = (name, name)
        one, other = (self.figures.shape.island[self.network.index[end]] for end in ends)
        if one == other:
            return self._of(one)
        values = [self._of(one), self._of(other)]
        missing = unknowns(values)
        if missing:
            return Unknown("highest voltage of the two ends", missing)
        return _largest(
            [v for v in values if isinstance(v, Derived)],
            "highest voltage of the two ends",
            "U_max",
        )

    def _of(self, piece: int) -> Value:
        if piece not in self._highest:
            self._highest[piece] = self._find(piece)
        return self._highest[piece]

    def _find(self, piece: int) -> Value:
        quantity = "highest system voltage"
        values: list[Value] = []
        seen: set[int] = set()
        for feed in self._feeds(piece):
            part = feed.source.part
            if part is not None and id(part) not in seen:
                seen.add(id(part))
                values.append(feed.emf_high)
                values.append(
                    of_part(
                        part,
                        "charge_voltage",
                        part.charge_voltage,
                        f"charging voltage of {feed.source.name}",
                        "U",
                        "V",
                    )
                )
        values += [injection.voltage for injection in self._injections(piece)]
        missing = unknowns(values)
        if missing:
            return Unknown(quantity, missing)
        if not values:
            return Derived(f"{quantity}: no source", "U_max", 0.0, "V", source=DEFINITION)
        return _largest([v for v in values if isinstance(v, Derived)], quantity, "U_max")

    def nominal(self, point: int) -> Value:
        """Nominal voltage [V] of the piece of a point: its sources decide."""
        piece = self.figures.shape.island[point]
        if piece not in self._nominal:
            stated = self._stated(piece)
            own = [v for v in stated if isinstance(v, Derived)]
            held = [i.voltage for i in self._injections(piece) if isinstance(i.voltage, Derived)]
            highest = max(own or held, key=lambda value: value.value, default=None)
            self._nominal[piece] = unknowns(stated) if highest is None else self._usual(highest)
        found = self._nominal[piece]
        if isinstance(found, Derived):
            return found
        where = self.network.points[point]
        missing = found or (f"{where}: a source with a voltage",)
        return Unknown(f"nominal voltage at {where}", missing)

    def sources_nominal(self, point: int) -> Value:
        """Highest nominal voltage [V] that batteries of the piece of a point have by their parts.

        A bank of 51.2 V stays one of 51.2 V though the file calls the system "48 V": codes draw
        their lines at 50 V and 60 V. Unknown where one battery states none; without a battery as
        `nominal`.
        """
        piece = self.figures.shape.island[point]
        if piece not in self._bank:
            values = self._stated(piece)
            known = [value for value in values if isinstance(value, Derived)]
            missing = unknowns(values)
            self._bank[piece] = (
                Unknown("nominal voltage of the bank", missing)
                if missing
                else max(known, key=lambda value: value.value, default=None)
            )
        return self._bank[piece] or self.nominal(point)

    def _stated(self, piece: int) -> list[Value]:
        """Nominal voltage [V] of each battery of a piece."""
        return [
            of_part(
                feed.source.part,
                "nominal_voltage",
                feed.source.part.nominal_voltage,
                f"nominal voltage of {feed.source.name}",
                "U_n",
                "V",
            )
            for feed in self._feeds(piece)
            if feed.source.part is not None
        ]

    def _usual(self, voltage: Derived) -> Derived:
        """The system's nominal voltage if the source fits it, else a usual one, else its own."""
        stated = self.network.system.nominal_voltage
        if stated is not None and _fits(voltage.value, stated):
            source = Source("system file", f"line {self.network.system.line}")
            return Derived(
                "nominal voltage of the system",
                "U_n",
                stated,
                "V",
                source=source,
                written=self.network.system.written.get("nominal_voltage", ""),
            )
        usual = next((each for each in _USUAL if _fits(voltage.value, each)), None)
        if usual is None:
            return renamed(voltage, "U_n")
        return Derived(
            f"nominal voltage of a source of {voltage.value:g} V",
            "U_n",
            usual,
            "V",
            source=Source("common practice"),
        )

    def _feeds(self, piece: int) -> list[Feed]:
        island = self.figures.shape.island
        return [feed for feed in self.network.feeds if island[feed.point] == piece]

    def _injections(self, piece: int) -> list[Injection]:
        island = self.figures.shape.island
        return [each for each in self.network.injections if island[each.point] == piece]


def problems(figures: Figures, loads: Loads) -> tuple[str, ...]:
    """What is odd about a network, a phrase each."""
    return (
        *_dead(figures),
        *_other_nominal(figures),
        *_unequal(figures),
        *_without_resistance(figures),
        *loads.overdrawn.values(),
        *_collapsed(figures, loads),
    )


def _dead(figures: Figures) -> list[str]:
    """Pieces without any source, in the normal condition (elsewhere that may be meant)."""
    network, shape = figures.network, figures.shape
    if network.condition.name != "normal":
        return []
    named = (
        *network.system.equipment,
        *network.system.busbars,
        *(f"{converter}.input" for converter in network.system.converters),
    )
    pieces: dict[int, list[str]] = {}
    for name in named:
        piece = shape.island[network.index[name]]
        if not shape.island_sources[piece]:
            pieces.setdefault(piece, []).append(name)
    return [f"{', '.join(names[:6])}: not connected to any source" for names in pieces.values()]


def _other_nominal(figures: Figures) -> list[str]:
    """A system none of whose batteries has its nominal voltage, such as two drawn in series."""
    system = figures.network.system
    stated = system.nominal_voltage
    found: dict[str, float] = {}
    for source in system.sources.values():
        part = source.part
        if part is not None and part.nominal_voltage is not None:
            found[source.name] = part.nominal_voltage
        elif part is not None and part.emf is not None:
            found[source.name] = (part.emf.min + part.emf.max) / 2
    if not stated or not found or any(abs(v - stated) < ANOTHER * stated for v in found.values()):
        return []
    named = ", ".join(f"{name}: {value:g} V" for name, value in [*found.items()][:6])
    return [
        f"nominal_voltage is {stated:g} V, but no battery is of that voltage ({named}); batteries "
        "in series are one source, with a part of its own"
    ]


def _unequal(figures: Figures) -> list[str]:
    """Sources of different voltage on one conductor."""
    ranges: dict[int, list[tuple[float, float, str]]] = {}
    for feed in figures.network.feeds:
        part = feed.source.part
        if part is not None and part.emf is not None:
            top = max(part.emf.max, part.charge_voltage or part.emf.max)
            ranges.setdefault(figures.shape.island[feed.point], []).append(
                (part.emf.min, top, feed.source.name)
            )
    for injection in figures.network.injections:
        if isinstance(injection.voltage, Derived):
            held = injection.voltage.value
            ranges.setdefault(figures.shape.island[injection.point], []).append(
                (held * (1 - APART), held, injection.source.name)
            )
    found: list[str] = []
    for several in ranges.values():
        low, high = min(several, key=lambda r: r[1]), max(several, key=lambda r: r[0])
        if high[0] > low[1] * (1 + 1e-9):
            found.append(
                f"{low[2]} and {high[2]}: connected, but their voltages do not meet "
                f"({low[1]:g} V at most and {high[0]:g} V at least)"
            )
    return found


def _without_resistance(figures: Figures) -> list[str]:
    return [
        f"{feed.source.name}: its resistance must be above zero"
        for feed in figures.network.feeds
        if feed.source.part is not None
        and feed.source.part.resistance is not None
        and not (feed.source.part.resistance.min > 0 and feed.source.part.resistance.max > 0)
    ]


def _collapsed(figures: Figures, loads: Loads) -> list[str]:
    """Equipment that draws more than its sources can bring to it."""
    network, shape = figures.network, figures.shape
    known = all(
        isinstance(value, Derived)
        for feed in network.feeds
        for value in (feed.emf_low, feed.resistance_high)
    )
    if not known or not network.draws:
        return []
    voltages = loads.cases[0].voltages
    return [
        f"{draw.subject.name}: more is drawn than its sources can bring to it"
        for draw in network.draws
        if isinstance(draw.current, Derived)
        and draw.current.value
        and shape.island_batteries[shape.island[draw.point]]
        and voltages[draw.point] <= 0.0
    ]


def _fits(voltage: float, nominal: float) -> bool:
    return nominal * (1 - 1e-9) <= voltage <= nominal * (1 + CHARGING)


def _largest(values: list[Derived], quantity: str, symbol: str) -> Derived:
    unique = list({(value.quantity, value.value): value for value in values}.values())
    named = tuple(renamed(value, f"U_{n}") for n, value in enumerate(unique, 1))
    formula = f"max({', '.join(value.symbol for value in named)})"
    return Derived(quantity, symbol, max(v.value for v in named), "V", formula, named, HIGHEST)
