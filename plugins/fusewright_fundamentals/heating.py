"""How hot one leg of a cable gets at each current that its devices must clear.

What several devices let through adds up as (√J₁ + √J₂ + …)² at most, each with its own share of the
current until it has cleared (Minkowski's inequality), and with all that outlasts them; what lasts
longer than a short fault does, warms the leg from there, part after part.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import exp, inf, sqrt
from typing import Any, NamedTuple

from coordination.physics.adiabatic import MELTING_POINT, temperature_after
from coordination.physics.overload import overload_temperature, warming_time
from coordination.physics.temperature import load_temperature
from coordination.rules import Derived, Unknown, Value, dataclass, field
from fusewright_fundamentals.amounts import amps
from fusewright_fundamentals.heat_limits import (
    energy_limit,
    final_temperature,
    initial_temperature,
)

#: Longest time [s] in which no heat is taken to escape.
ADIABATIC = 5.0
#: Overload [times the ampacity] that a cable bears until its device opens, however long it takes.
BEARABLE = 1.45


class Part(NamedTuple):
    """One device's part of a current: through it [A], until [s] it has cleared."""

    clearer: Any
    current: float
    time: float


class Course(NamedTuple):
    """What happens at one current: parts that end quickly, parts that last, what never ends.

    endless  -- current [A] that no device ends
    severity -- what is reached over what is allowed [1]; 0 where it is borne; None: not known
    """

    current: float
    quick: tuple[Part, ...]
    slow: tuple[Part, ...]
    endless: float
    severity: float | None

    @property
    def lasting(self) -> float:
        """Current [A] that flows on when the quick parts have ended."""
        return _lasting(self.slow, self.endless)

    @property
    def energy(self) -> float:
        """I²t [A²s] until the quick parts have ended, at most."""
        return _energy(self.quick, self.lasting)

    @property
    def last(self) -> Part | None:
        """The last part that ends."""
        return max((*self.quick, *self.slow), key=lambda part: part.time, default=None)


def _share(energy: float, limit: float) -> float:
    """Of what is allowed [1]: nothing is within any limit, even one of 0."""
    if energy <= 0.0:
        return 0.0
    return energy / limit if limit else inf


def _energy(quick: Iterable[Part], lasting: float) -> float:
    total = longest = 0.0
    for part in quick:
        total += part.current * sqrt(part.time)
        longest = max(longest, part.time)
    total += lasting * sqrt(longest)
    return total * total


def _lasting(slow: Iterable[Part], endless: float) -> float:
    return sum([part.current for part in slow], endless)


@dataclass(frozen=True, slots=True)
class Heating:
    """One leg, fed from one end, with what is known of it.

    initial, final, limit -- [°C], [°C], let-through [A²s] of one of its parallel cables
    ampacity -- [A] of the whole leg, or Unknown: then only short faults can be judged
    """

    cable: Any
    study: Any
    span: Any
    leg: Any
    initial: Derived
    final: Derived
    limit: Derived
    ampacity: Value
    kept: dict[str, float] = field(default_factory=dict, init=False, repr=False, compare=False)

    def course(self, current: float) -> Course:
        """What a current [A] in the cable does."""
        quick: list[Part] = []
        slow: list[Part] = []
        endless = 0.0
        for band in self.span.bands:
            time = band.lasts(current)
            if time is None:
                endless += current * band.share
            else:
                part = Part(band.clearer, current * band.share, time)
                (quick if time <= ADIABATIC else slow).append(part)
        severity = self._severity(quick, slow, endless)
        return Course(current, tuple(quick), tuple(slow), endless, severity)

    def _severity(
        self, quick: Sequence[Part], slow: Sequence[Part], endless: float
    ) -> float | None:
        lasting = _lasting(slow, endless)
        energy = _energy(quick, lasting) / self.leg.runs**2
        severity = _share(energy, self.limit.value)
        if not slow:
            return severity
        if isinstance(self.ampacity, Unknown):
            return None
        if lasting <= BEARABLE * self.ampacity.value:
            return severity
        return self._hottest(energy, slow, endless) / self.final.value

    def endless(self, current: float) -> tuple[str, ...]:
        """What would have to be known of the devices of which no end is known, a phrase each."""
        return tuple(
            f"{band.clearer.device.name}: clearing time at {amps(current * band.share)}"
            for band in self.span.bands
            if band.lasts(current) is None
        )

    def borne(self, course: Course) -> bool:
        """Whether what lasts is no more than the cable bears, and nothing ends quickly."""
        limit = self.ampacity
        within = isinstance(limit, Derived) and course.lasting <= BEARABLE * limit.value
        return within and not course.quick

    def lasts(self, current: float) -> bool:
        """Whether any part of a current [A] lasts longer than a short fault, and ends."""
        times = (band.lasts(current) for band in self.span.bands)
        return any(time is not None and time > ADIABATIC for time in times)

    def most(self, low: float, high: float) -> float:
        """No less than the severity at any current from low to high [A], between two corners.

        With rising current a device clears sooner, so it is at most as if the larger current
        lasted as long as the smaller one does.
        """
        quick: list[Part] = []
        slow: list[Part] = []
        endless = until = 0.0
        for band in self.span.bands:
            time, current = band.lasts(low), high * band.share
            if time is None:
                endless += current
                continue
            if time > ADIABATIC:
                slow.append(Part(band.clearer, current, time))
                last = band.lasts(high)
                until = max(until, last)
                if last > ADIABATIC:
                    continue
            quick.append(Part(band.clearer, current, min(time, ADIABATIC)))
        if slow and not quick and isinstance(self.ampacity, Derived):
            if _lasting(slow, endless) <= BEARABLE * self.ampacity.value:
                return 0.0
            return self._warmed_at_most(low / high, slow, endless, until)
        severity = self._severity(quick, slow, endless)
        if severity is None:
            return inf
        energy = _energy(quick, _lasting(slow, endless)) / self.leg.runs**2
        return max(severity, _share(energy, self.limit.value))

    def _warmed_at_most(
        self, down: float, slow: Sequence[Part], endless: float, until: float
    ) -> float:
        """The severity, if all parts last as long as the last one.

        The I²t of a straight line is largest at an end. I² (1 − e^(−t / τ)) rises with I where I²t
        stays, so it is at most that of the larger current with the largest I²t.

        slow  -- parts at the larger current that last as long as at the smaller one
        down  -- the smaller current over the larger [1]
        until -- how long the parts last at the larger one [s]
        """
        lasts = max(part.time for part in slow) * down**2
        tau, initial = self.warming, self.after(0.0)
        rise = self.steady(_lasting(slow, endless)) - self.ambient
        rise *= 1 - exp(-max(lasts, until) / tau)
        rest = max(0.0, initial - self.ambient) * exp(-until / tau)
        return max(initial, self.ambient + rise + rest) / self.final.value

    @property
    def ambient(self) -> float:
        """Air temperature [°C] around the cable."""
        if "ambient" not in self.kept:
            self.kept["ambient"] = self.study.ambient(self.cable).value
        return self.kept["ambient"]

    @property
    def warming(self) -> float:
        """Time constant [s] with which each of the parallel cables warms, at least."""
        if "warming" not in self.kept:
            self.kept["warming"] = self._warming()
        return self.kept["warming"]

    def _warming(self) -> float:
        assert isinstance(self.ampacity, Derived)
        rated = self.leg.insulation_temperature.value
        return warming_time(
            self.leg.area.value, self.ampacity.value / self.leg.runs, self.ambient, rated
        )

    def steady(self, current: float) -> float:
        """Temperature [°C] that a current in the leg would lead to."""
        assert isinstance(self.ampacity, Derived)
        rated = self.leg.insulation_temperature.value
        return load_temperature(current, self.ampacity.value, self.ambient, rated, self.ambient)

    def after(self, energy: float) -> float:
        """Temperature [°C] after an I²t [A²s] in one of the parallel cables.

        Molten copper is hot enough to fail, and a number.
        """
        initial = min(self.initial.value, MELTING_POINT)
        return min(temperature_after(initial, energy, self.leg.area.value), MELTING_POINT)

    def _hottest(self, energy: float, slow: Iterable[Part], endless: float) -> float:
        """Highest temperature [°C] while one part after the other ends."""
        hottest = now = self.after(energy)
        lasting, tau, earlier = _lasting(slow, endless), self.warming, 0.0
        for part in in_turn(slow):
            now = overload_temperature(self.steady(lasting), now, tau, part.time - earlier)
            hottest = max(hottest, now)
            lasting, earlier = lasting - part.current, part.time
        return hottest


def in_turn(parts: Iterable[Part]) -> list[Part]:
    """Parts in the order in which they end."""
    return sorted(parts, key=lambda part: part.time)


def heating_of(cable: Any, study: Any, span: Any, leg: Any) -> Heating | Unknown:
    """The figures of a leg fed from one end, or what is missing for them."""
    final = final_temperature(leg)
    initial = initial_temperature(cable, study, leg)
    limit = energy_limit(leg, initial, final)
    for value in (initial, final, limit):
        if isinstance(value, Unknown):
            return value
    assert isinstance(initial, Derived)
    assert isinstance(final, Derived)
    assert isinstance(limit, Derived)
    ampacity = study.ampacity(cable, leg)
    if isinstance(ampacity, Derived) and ampacity.value <= 0.0:
        ampacity = Unknown("ampacity", (f"{cable.name}: an ampacity above 0 A in air so hot",))
    return Heating(cable, study, span, leg, initial, final, limit, ampacity)
