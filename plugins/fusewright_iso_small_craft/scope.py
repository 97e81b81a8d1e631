"""Where the standard speaks: craft up to 24 m, direct current up to a nominal 50 V.

A bank of 16 lithium cells has a nominal 51.2 V: sold as "48 V", it lies outside. A boat may have
such a bank beside one of 12 V: then the rules keep quiet about the part above 50 V alone.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from coordination.rules import ROUNDING, Card, Rule, Scope, rule
from coordination.rules.kit.joined import nothing
from coordination.rules.kit.zone import zone
from fusewright_iso_small_craft.editions import Edition
from fusewright_iso_small_craft.options import asked, stated

#: Highest nominal voltage of direct current [V], and largest hull length [m].
HIGHEST, LONGEST = 50.0, 24.0
HULL = "hull length, measured by ISO 8666"


def scope_test(edition: Edition) -> Callable[[Any], Scope]:
    """The scope test of an edition; it looks at the whole drawing, so conditions agree."""

    def scope(study: Any) -> Scope:
        volts = [*_voltages(study)]
        hull = stated(study, "hull_length")
        known = [value for value, _ in volts if value is not None]
        if hull is not None and above(hull, LONGEST):
            return Scope(False, f"hull of {hull:g} m: {edition.document} reaches to 24 m")
        if volts and len(known) == len(volts) and all(above(value, HIGHEST) for value in known):
            highest = f"nominal {max(known):g} V"
            return Scope(False, f"{highest}: {edition.document} reaches to 50 V, whatever the name")
        missing = [] if hull is not None else [asked("hull_length", HULL)]
        if all(above(value, HIGHEST) for value in known):
            missing += [phrase for value, phrase in volts if value is None] or [_NOMINAL]
        if missing:
            return Scope(None, "whether the standard speaks of this boat", tuple(missing))
        return Scope(True, f"hull of {hull:g} m, direct current of at most 50 V")

    return scope


_NOMINAL = "nominal_voltage"


def _voltages(study: Any) -> Iterator[tuple[float | None, str]]:
    """Nominal voltages [V] that the batteries have by their parts; without any the file's."""
    batteries = [each for each in study.system.sources.values() if each.part is not None]
    for battery in batteries:
        yield battery.part.nominal_voltage, f"{battery.part.id}: nominal_voltage"
    if not batteries:
        yield study.system.nominal_voltage, _NOMINAL


def above(value: float, limit: float) -> bool:
    """Whether a value exceeds a limit by more than rounding."""
    return value > limit * (1 + ROUNDING)


def outside(point: str, study: Any) -> bool:
    """Whether a battery above 50 V is joined to a point on the drawing, switches aside."""
    if not any(above(value or 0.0, HIGHEST) for value, _ in _voltages(study)):
        return False
    joined = zone(point, study, nothing, drawn=True)
    sources = (study.system.sources[name] for name in joined.lengths if name in
               study.system.sources)  # fmt: skip
    return any(
        source.part is not None and above(source.part.nominal_voltage or 0.0, HIGHEST)
        for source in sources
    )


def iso_rule(card: Card, *, each: str | tuple[str, ...]) -> Callable[[Callable[..., Any]], Rule]:
    """A rule of the standard: it is not asked about anything on a bank above 50 V."""

    def decorate(judge: Callable[..., Any]) -> Rule:
        def inside(subject: Any, study: Any) -> Any:
            return None if outside(_point(subject), study) else judge(subject, study)

        return rule(card, each=each)(inside)

    return decorate


def _point(subject: Any) -> str:
    """A point of what is judged; of a converter its output, where it is a source."""
    if hasattr(subject, "output_current"):
        return f"{subject.name}.output"
    return str(subject.start if hasattr(subject, "circuit") else subject.name)
