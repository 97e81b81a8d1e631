"""Which parts are at hand for a place: the file's own, the shop's, then the generic ones.

A part qualifies by cheap necessary conditions (what it must carry, hold off and break there) and by
stating at least what the part states that it replaces: a figure that goes missing would turn a
verdict into unproven.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from math import inf, log
from typing import Any, Final, NamedTuple

from catalogue.parts import Part
from catalogue.store import Catalogue

#: Figures of a part, kind by kind, that verdicts rest on.
FIGURES: Final[Mapping[str, tuple[str, ...]]] = {
    "fuse": ("rated_current", "rated_voltage", "interrupt_ratings", "curve", "resistance",
             "terminal_limit", "derating"),
    "breaker": ("rated_current", "rated_voltage", "interrupt_ratings", "curve", "resistance",
                "terminal_limit", "derating"),
    "cable": ("area", "material", "insulation_temperature", "voltage", "outside_diameter"),
    "disconnect": ("rated_current", "voltage", "breaking", "withstand", "intermittent",
                   "resistance", "terminal_limit"),
    "channel": ("rated_current", "voltage", "trip_current", "interrupt_ratings", "resistance",
                "derating"),
    "busbar": ("rated_current", "voltage", "short_time", "material", "width", "thickness"),
}  # fmt: skip

#: Ratings of a device that are tried: up to this many times the present one, or the load.
WIDEST: Final = 2.5
#: Cable sizes that are tried above the present one.
SIZES: Final = 5
#: Bars, switches and channels that are tried: the smallest that qualify.
SMALLEST: Final = 8
#: Two currents are one within this share, as in the rules.
_ROUNDING: Final = 1e-9


class Needs(NamedTuple):
    """What a part must bear at its place, at worst of all conditions; None: not known.

    load [A], voltage [V], duty [A]
    """

    load: float | None = None
    voltage: float | None = None
    duty: float | None = None


class Choice(NamedTuple):
    """The parts that qualify for a place, and those that do not, by what stands in the way."""

    parts: tuple[Part, ...]
    unfit: int
    silent: tuple[tuple[Part, str], ...]


class Shelf:
    """Every part at hand, by kind; what the file defines shadows the catalogue."""

    def __init__(self, own: Mapping[str, Part], catalogue: Catalogue) -> None:
        self._own, self._catalogue = own, catalogue
        self._kinds: dict[str, tuple[Part, ...]] = {}

    def of(self, kind: str) -> tuple[Part, ...]:
        """All parts of a kind that are not retired: own, shop, generic."""
        if kind not in self._kinds:
            own = [part for part in self._own.values() if part.kind == kind]
            ids = [each for each in self._catalogue.ids(kind) if each not in self._own]
            found = [self._catalogue.get(each) for each in ids]
            stored = [part for part in found if part is not None]
            stored.sort(key=lambda part: part.origin == "generic")
            parts = (part for part in (*own, *stored) if part.status != "retired")
            self._kinds[kind] = tuple(parts)
        return self._kinds[kind]

    def devices(self, present: Part, needs: Needs) -> Choice:
        """Fuses and breakers in place of one; a breaker may give way to a fuse, not the reverse."""
        kinds = ("fuse",) if present.kind == "fuse" else ("breaker", "fuse")
        parts = [part for kind in kinds for part in self.of(kind) if part.id != present.id]
        rated = getattr(present, "rated_current", None) or needs.load or inf
        top = WIDEST * max(rated, needs.load or 0.0)
        return _chosen(parts, stated(present), lambda part: device_fits(part, needs, top))

    def added_fuses(self, figures: frozenset[str], needs: Needs, top: float) -> Choice:
        """Fuses for a place where there is none, up to a rating [A]."""
        fits: Callable[[Part], bool] = lambda part: device_fits(part, needs, top)  # noqa: E731
        return _chosen(self.of("fuse"), figures, fits)

    def cables(self, present: Any, needs: Needs) -> Choice:
        """The next larger cables of an insulation at least as good; of each size the first."""
        fits: Callable[[Any], bool] = lambda part: _larger(part, present, needs)  # noqa: E731
        found = _chosen(self.of("cable"), stated(present), fits)
        sizes: dict[float, Part] = {}
        for part in found.parts:
            sizes.setdefault(round(getattr(part, "area", 0.0) * 1e6, 3), part)
        return found._replace(parts=tuple(sizes[size] for size in sorted(sizes)[:SIZES]))

    def others(self, present: Any, needs: Needs) -> Choice:
        """Bars, switches or channels in place of one: the smallest that carry the load.

        What is worked from afar gives way only to what is worked from afar.
        """
        parts = [part for part in self.of(present.kind) if part.id != present.id]
        remote = bool(getattr(present, "remote", False))
        fits: Callable[[Any], bool] = lambda part: (  # noqa: E731
            _carries(part, needs) and (not remote or bool(part.remote))
        )
        found = _chosen(parts, stated(present), fits)
        ordered = sorted(found.parts, key=lambda part: (part.origin == "generic", _rated(part)))
        return found._replace(parts=tuple(ordered[:SMALLEST]))


def stated(part: Any) -> frozenset[str]:
    """Which of the figures that verdicts rest on a part states."""
    return frozenset(name for name in FIGURES[part.kind] if getattr(part, name, None))


def _chosen(
    parts: Iterable[Part], figures: frozenset[str], fits: Callable[[Part], bool]
) -> Choice:
    """Parts that state the figures and fit. A figure of another kind of part is not asked for."""
    good, silent, unfit = [], [], 0
    for part in parts:
        lacking = [name for name in FIGURES[part.kind] if name in figures - stated(part)]
        if not fits(part):
            unfit += 1
        elif lacking:
            silent.append((part, lacking[0]))
        else:
            good.append(part)
    return Choice(tuple(good), unfit, tuple(silent))


def device_fits(part: Any, needs: Needs, top: float = inf) -> bool:
    """Whether nothing that a device states rules it out: rating, voltage, what it breaks."""
    rated = part.rated_current
    if rated is not None and (rated > top or _short(rated, needs.load)):
        return False
    if part.rated_voltage is not None and _short(part.rated_voltage, needs.voltage):
        return False
    if not part.interrupt_ratings or needs.voltage is None:
        return True
    rows = [row for row in part.interrupt_ratings if not _short(row.voltage, needs.voltage)]
    return any(not _short(row.current, needs.duty) for row in rows)


def _larger(part: Any, present: Any, needs: Needs) -> bool:
    if not part.area or not present.area or part.area <= present.area * (1 + 1e-6):
        return False
    if part.material != present.material or _short(part.voltage or inf, needs.voltage):
        return False
    return not _short(part.insulation_temperature or inf, present.insulation_temperature)


def _carries(part: Any, needs: Needs) -> bool:
    return not _short(part.rated_current or inf, needs.load) and not _short(
        part.voltage or inf, needs.voltage
    )


def _rated(part: Any) -> float:
    return float(getattr(part, "rated_current", None) or inf)


def _short(has: float, needed: float | None) -> bool:
    return needed is not None and has < needed * (1 - _ROUNDING)


def size_of(part: Any, present: Any) -> float:
    """How far a part is from the present one: ratio of rating or area, another family or kind."""
    field = "area" if part.kind == "cable" else "rated_current"
    new, old = getattr(part, field, None), getattr(present, field, None)
    ratio = abs(log(new / old)) if new and old else 0.0
    other = getattr(part, "family", None) != getattr(present, "family", None)
    return ratio + (0.1 if other else 0.0) + (1.0 if part.kind != present.kind else 0.0)
