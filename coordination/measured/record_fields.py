"""The fields of a commissioning record: the one list that reader and blank record share."""

from __future__ import annotations

from typing import Final

from coordination.reading.fields import (
    Field,
    FieldTable,
    choice,
    quantity,
    record,
    text,
)
from coordination.reading.limits import AMBIENT, Limits

_SHARE: Final = Limits(0.0, 0.2, "0 to 20 %")
_KELVIN: Final = Limits(0.0, 20.0, "0 °C to 20 °C")
_SPREAD: Final = Limits(0.0, 0.95, "0 to 95 %")
_SPREAD_OVER: Final = Limits(0.0, 2.0, "0 to 200 %")


def _section(meaning: str) -> Field:
    return Field(shape="section", meaning=meaning)


def _meter(dimension: str, of: str) -> Field:
    """A meter: its accuracy, its last digit, what and which it is."""
    accuracy = quantity("ratio", "error, as a share of the reading", limits=_SHARE)
    if dimension == "temperature":
        accuracy = quantity("temperature", "error", limits=_KELVIN)
    fields = {"accuracy": accuracy, "instrument": text("what it is, and its serial number")}
    if dimension != "temperature":
        fields["resolution"] = quantity(dimension, "its last digit", zero=True)
    return record(fields, f"what {of} was measured with")


def _reading(meaning: str) -> Field:
    fields = {
        "current": quantity("current", "drawn from the battery", required=True, zero=True),
        "voltage": quantity("voltage", "at its terminals", required=True),
    }
    return record(fields, meaning)


RECORD: Final = FieldTable(
    {
        "system": text("name of the system, as its file has it", required=True),
        "date": Field(shape="date", meaning="day of the measurements, YYYY-MM-DD", required=True),
        "by": text("who measured"),
        "notes": text("anything else worth knowing"),
        "condition": text("the condition of the system at the measurements (default: normal)"),
        "meters": record(
            {
                "voltage": _meter("voltage", "voltage"),
                "current": _meter("current", "current"),
                "temperature": _meter("temperature", "temperature"),
            },
            "the instruments; common practice stands for what is not stated",
        ),
        "batteries": _section("batteries by name"),
        "drops": _section("equipment by name"),
        "terminals": _section("fuses, breakers and switches by name"),
        "shore": record(
            {
                "current": quantity("current", "with everything on", required=True, zero=True),
                "limit": quantity("current", "rating of the inlet, or the limit that is set"),
                "voltage": quantity("voltage", "of the shore supply then"),
                "loads": quantity(
                    "current", "of all that drew straight from it, by nameplates", zero=True
                ),
                "charging": record(
                    {
                        "current": quantity(
                            "current", "into the batteries then", required=True, zero=True
                        ),
                        "voltage": quantity("voltage", "at the charger then", required=True),
                        "efficiency": quantity(
                            "ratio", "of the charger, given over drawn", required=True
                        ),
                        "power_factor": quantity(
                            "ratio", "of the charger's input", required=True
                        ),
                    },
                    "what the chargers gave; with it, and the loads, the current is predicted",
                ),
            },
            "the AC current from the shore",
        ),
    }
)

BATTERY: Final = FieldTable(
    {
        "open_circuit": quantity("voltage", "at rest, nothing drawing or charging"),
        "light": _reading("the lighter of two steady currents"),
        "heavy": _reading("the heavier of two steady currents"),
        "temperature": quantity("temperature", "of the battery then", limits=AMBIENT),
        "state_of_charge": quantity("ratio", "of the battery then", zero=True),
        "spread": record(
            {
                "under": quantity("ratio", "at its least", required=True, limits=_SPREAD),
                "over": quantity("factor", "at its most", required=True, limits=_SPREAD_OVER),
            },
            "how far its resistance may lie under and over at other temperatures, charges, ages",
        ),
    }
)

DROP: Final = FieldTable(
    {
        "current": quantity("current", "that the load drew", required=True),
        "drop": quantity(
            "voltage", "from the battery's terminals to its own", required=True, zero=True
        ),
        "drawing": choice(("alone", "all"), "whether it alone drew then (default), or all loads"),
    }
)

TERMINAL: Final = FieldTable(
    {
        "current": quantity("current", "through it", required=True),
        "temperature": quantity("temperature", "of the warmer terminal", required=True),
        "ambient": quantity("temperature", "of the air around", required=True, limits=AMBIENT),
    }
)
