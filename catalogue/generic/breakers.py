"""Generic circuit breakers by trip band: B, C, D, moulded case, thermal only."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from catalogue.generic.tables import (
    Draft,
    Row,
    applies,
    curve_of,
    notes,
    provenance,
    ratings,
    rows,
    with_unit,
)


def breakers() -> Iterator[Draft]:
    """Every generic breaker; what no standard and no marking tells stays unknown."""
    bands = rows("breaker_bands")
    for family in rows("breakers"):
        for text, rating in ratings(family):
            gates = [
                band
                for band in bands
                if band["bands"] == family["bands"] and applies(band, rating)
            ]
            yield Draft(f"{family['id']}-{text}", "breaker", _breaker(family, gates, rating))


def _breaker(family: Row, gates: list[Row], rating: float) -> dict[str, Any]:
    sources = [family["rating_source"], *(gate["source"] for gate in gates)]
    stated: dict[str, Any] = {
        "description": f"{with_unit(rating, 'A')} {family['description']}",
        "family": family["family"],
        "rated_current": with_unit(rating, "A"),
        "curve": curve_of(gates, rating, "min_trip", "max_trip"),
        "poles": family["poles"],
        **provenance(family["document"], family["clause"], sources),
        "notes": notes(*sources),
    }
    for name in ("polarised", "trip_free"):
        if family[name]:
            stated[name] = family[name]
    if family["derating"]:
        pairs = (pair.split(":") for pair in family["derating"].split(";"))
        stated["derating"] = [
            [with_unit(celsius, "°C"), with_unit(float(share) * 100, "%")]
            for celsius, share in pairs
        ]
    if family["voltage_V"]:
        volts = with_unit(family["voltage_V"], "V")
        stated["rated_voltage"] = volts
        stated["interrupt_ratings"] = [
            {"voltage": volts, "current": with_unit(family["breaking_A"], "A")}
        ]
    return stated
