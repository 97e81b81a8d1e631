"""Cables and bars: sizes, resistances and temperatures that copper and insulation do not have."""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import pi, sqrt
from typing import Any, Final

from catalogue.doubts.doubt import Doubt, amps, square
from catalogue.doubts.family import table
from catalogue.quantities import GAUGE_TOLERANCE, awg_area, show

#: Resistivity of annealed copper at 20 °C [Ω·m]: IEC 60028.
_COPPER: Final = 1.7241e-8
_COPPER_SOURCE: Final = "annealed copper, 0.017241 Ω·mm²/m"
#: Shares of the nominal resistance between which every limit of IEC 60228 and Chapter 9 lies.
_LEAST, _MOST = 0.93, 1.25
#: Sizes [m²] of IEC 60228 that are listed at all.
_AREAS: Final = (0.2e-6, 1000e-6)
_AREAS_SOURCE: Final = "IEC 60228: 0.5 to 1000 mm²; gauges from 24 AWG"
_GAUGE: Final = re.compile(r"(?<![\d./])([1-4]/0|\d{1,2})[ -]?awg\b", re.IGNORECASE)
_METRIC: Final = re.compile(r"(?<![\d./])(\d+(?:\.\d+)?) ?mm(?:²|2)(?!\w)")
#: Times the published current of a bar of its section that is doubted.
_BAR: Final = 2.0


def cable_doubts(part: Any) -> Iterator[Doubt]:
    """What is hard to believe of a cable."""
    if part.area is not None:
        yield from _area(part)
        if part.resistance_20c is not None:
            yield from _resistance(part)
        if part.outside_diameter is not None:
            yield from _diameter(part)
    temperature = part.insulation_temperature
    known = [float(row["temperature_C"]) for row in table("insulations")]
    if temperature is not None and not min(known) <= temperature <= max(known) + 50:
        expected = f"{min(known):g} °C to {max(known):g} °C"
        found = f"{show(temperature, '°C')}"
        source = "classes of insulation; from memory, not read here"
        if any(abs((each - 32) / 1.8 - temperature) < 0.6 for each in known):
            source = f"{source}; degrees Fahrenheit?"
        yield Doubt(part.id, "insulation_temperature", found, expected, source)


def _area(part: Any) -> Iterator[Doubt]:
    words = f"{part.id} {part.description or ''}"
    area = part.area
    if not _AREAS[0] <= area <= _AREAS[1]:
        expected = f"{square(_AREAS[0])} to {square(_AREAS[1])}"
        yield Doubt(part.id, "area", square(area), expected, _AREAS_SOURCE)
    for match in [] if part.awg else _GAUGE.finditer(words):
        size = match[1]
        if not size.isdigit() or int(size) <= 40:
            nominal = awg_area(size)
            if abs(area / nominal - 1) > GAUGE_TOLERANCE:
                found = f"{square(area)}, where its name says {size} AWG"
                source = "ASTM B258, d = 0.005 in × 92^((36 − n)/39); from memory, not read here"
                yield Doubt(part.id, "area", found, square(nominal), source)
                return
    for match in _METRIC.finditer(words):
        nominal = float(match[1]) * 1e-6
        if nominal > 0 and abs(area / nominal - 1) > GAUGE_TOLERANCE:
            found = f"{square(area)}, where its name says {match[1]} mm²"
            yield Doubt(part.id, "area", found, square(nominal), "its own name")
            return


def _resistance(part: Any) -> Iterator[Doubt]:
    """Resistance per length against the area: Ω/km for mΩ/m is the same, Ω/m or Ω/kft is not."""
    nominal = _COPPER / part.area
    for end in ("min", "max"):
        value = getattr(part.resistance_20c, end)
        if not _LEAST * nominal <= value <= _MOST * nominal:
            low, high = show(nominal * 1000, "Ω"), show(_MOST * nominal * 1000, "Ω")
            found = f"{show(value * 1000, 'Ω')}/km with {square(part.area)}"
            expected = f"{low}/km to {high}/km"
            path = f"resistance_20c.{end}"
            yield Doubt(part.id, path, found, expected, f"{_COPPER_SOURCE}; IEC 60228 limits")


def _diameter(part: Any) -> Iterator[Doubt]:
    bare = sqrt(4 * part.area / pi)
    most = 3 * bare + 6e-3
    if not bare <= part.outside_diameter <= most:
        found = f"{show(part.outside_diameter, 'm')} over {square(part.area)}"
        expected = f"{show(bare, 'm')} to {show(most, 'm')}"
        source = "solid copper of that area; three times it and 6 mm as a wide bound"
        yield Doubt(part.id, "outside_diameter", found, expected, source)


def bar_doubts(part: Any) -> Iterator[Doubt]:
    """A bar's rated current against that of the published bar nearest in section."""
    if None in (part.width, part.thickness, part.rated_current):
        return
    if part.material not in (None, "copper", "tinned copper"):
        return
    section = part.width * part.thickness * 1e6
    row = min(
        table("bars"),
        key=lambda row: abs(float(row["width_mm"]) * float(row["thickness_mm"]) - section),
    )
    of = float(row["width_mm"]) * float(row["thickness_mm"])
    usual = float(row["bare_A"]) * section / of
    if not usual / _BAR / 2 <= part.rated_current <= usual * _BAR:
        found = f"{amps(part.rated_current)} with {section:.4g} mm²"
        expected = f"about {amps(usual)}"
        source = f"{row['width_mm']} × {row['thickness_mm']} mm: {row['source']}"
        yield Doubt(part.id, "rated_current", found, expected, source)
