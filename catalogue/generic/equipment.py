"""Generic switches by class, and invented batteries."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from catalogue.generic.tables import Draft, Row, notes, provenance, ratings, rows, with_unit


def equipment() -> Iterator[Draft]:
    """Every generic switch and battery."""
    for family in rows("switches"):
        for text, rating in ratings(family):
            yield Draft(f"{family['id']}-{text}", "disconnect", _switch(family, rating))
    for row in rows("batteries"):
        yield Draft(row["id"], "battery", _battery(row))


def _switch(family: Row, rating: float) -> dict[str, Any]:
    stated: dict[str, Any] = {
        "description": f"{with_unit(rating, 'A')} {family['description']}",
        "rated_current": with_unit(rating, "A"),
        "remote": family["remote"],
        **provenance(family["document"], family["clause"], [family["source"]]),
        "notes": notes(family["source"]),
    }
    if family["voltage_V"]:
        stated["voltage"] = with_unit(family["voltage_V"], "V")
    if family["breaking_x_Ie"]:
        current = float(family["breaking_x_Ie"]) * rating
        stated["breaking"] = {"current": with_unit(current, "A"), "voltage": stated["voltage"]}
    if family["withstand_x_Ie_1s"]:
        current = float(family["withstand_x_Ie_1s"]) * rating
        stated["withstand"] = {"current": with_unit(current, "A"), "time": "1 s"}
    return stated


def _battery(row: Row) -> dict[str, Any]:
    peak = {"current": with_unit(row["peak_A"], "A"), "time": with_unit(row["peak_s"], "s")}
    volts, hours = with_unit(row["nominal_V"], "V"), with_unit(row["capacity_Ah"], "Ah")
    return {
        "description": f"invented {row['chemistry']} battery, {volts}, {hours}: no maker's figures",
        "chemistry": row["chemistry"],
        "nominal_voltage": volts,
        "capacity": hours,
        "emf": {"min": with_unit(row["emf_min_V"], "V"), "max": with_unit(row["emf_max_V"], "V")},
        "charge_voltage": with_unit(row["charge_V"], "V"),
        "resistance": {
            "min": with_unit(row["resistance_min_mohm"], "mΩ"),
            "max": with_unit(row["resistance_max_mohm"], "mΩ"),
        },
        "discharge": {"continuous": with_unit(row["continuous_A"], "A"), "peak": peak},
        "cells": row["cells"],
        **provenance("invented", "table of invented batteries", [row["source"]]),
        "notes": notes(row["source"]),
    }
