"""What one cable part is per metre: area, resistance at 20 °C and hot, with derivations.

Each figure is worked out once per part; how long the cable is and how the current comes back is
`loop`'s matter.
"""

from __future__ import annotations

from collections.abc import Callable

from catalogue.parts import Cable, Part
from coordination.network.stated import of_part
from coordination.physics import conductors, sources
from coordination.physics.class_limits import class_limit
from coordination.trace import Derived, Unknown, Value, reckon


class Conductors:
    """The figures of every cable part that was asked for, kept."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, int], Value] = {}

    def area(self, part: Part) -> Value:
        """Cross-section [m²] of one conductor."""
        return self._once("area", part, _area)

    def cold(self, part: Part) -> Value:
        """Least resistance per length [Ω/m], at 20 °C."""
        return self._once("cold", part, self._cold)

    def limit(self, part: Part) -> Value:
        """Largest resistance per length [Ω/m] at 20 °C."""
        return self._once("limit", part, self._limit)

    def hot(self, part: Part) -> Value:
        """Largest resistance per length [Ω/m], at the temperature of the insulation."""
        return self._once("hot", part, self._hot)

    def insulation(self, part: Part) -> Value:
        """Highest continuous temperature of the insulation [degC]."""
        return self._once("insulation", part, _insulation)

    def _once(self, what: str, part: Part, make: Callable[[Cable], Value]) -> Value:
        key = (what, id(part))
        value = self._kept.get(key)
        if value is None:
            value = self._kept[key] = make(_cable(part))
        return value

    def _cold(self, part: Cable) -> Value:
        if part.resistance_20c is not None:
            return of_part(
                part,
                "resistance_20c.min",
                part.resistance_20c.min,
                "least resistance per length at 20 °C",
                "r",
                "Ω/m",
            )
        return reckon(
            lambda rho, area: conductors.resistance_per_length(area, rho),
            "least resistance per length at 20 °C",
            "r",
            "Ω/m",
            "ρ / S",
            _RESISTIVITY,
            self.area(part),
            source=sources.COPPER_RESISTIVITY,
        )

    def _limit(self, part: Cable) -> Value:
        if part.resistance_20c is not None:
            return of_part(
                part,
                "resistance_20c.max",
                part.resistance_20c.max,
                "largest resistance per length at 20 °C",
                "r_20",
                "Ω/m",
            )
        area = self.area(part)
        quantity = "largest resistance per length at 20 °C"
        if isinstance(area, Unknown):
            return Unknown(quantity, area.missing)
        limit = class_limit(area.value, part.stranding)
        if limit is not None:
            return Derived(
                f"{quantity}, {part.stranding}", "r_20", limit, "Ω/m", source=sources.CLASS_LIMIT
            )
        return reckon(
            lambda _, area: conductors.nominal_resistance_limit(area),
            quantity,
            "r_20",
            "Ω/m",
            "1.04 × ρ / S",
            _RESISTIVITY,
            area,
            source=sources.NOMINAL_PLUS_4,
        )

    def _hot(self, part: Cable) -> Value:
        return reckon(
            conductors.resistance_at_temperature,
            "largest resistance per length, hot",
            "r",
            "Ω/m",
            "r_20 × (234.5 + T) / 254.5",
            self.limit(part),
            self.insulation(part),
            source=sources.COPPER_TEMPERATURE_LAW,
        )


_RESISTIVITY = Derived(
    "resistivity of annealed copper at 20 °C",
    "ρ",
    conductors.COPPER_RESISTIVITY,
    "Ω·m",
    source=sources.COPPER_RESISTIVITY,
)


def _cable(part: Part) -> Cable:
    if not isinstance(part, Cable):
        raise TypeError(f"{part.id} is a {part.kind}, not a cable")
    return part


def _area(part: Cable) -> Value:
    return of_part(part, "area", part.area, "conductor cross-section", "S", "m²")


def _insulation(part: Cable) -> Value:
    return of_part(
        part,
        "insulation_temperature",
        part.insulation_temperature,
        "highest temperature of the insulation",
        "T",
        "°C",
    )
