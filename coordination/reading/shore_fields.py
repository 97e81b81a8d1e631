"""The fields about AC: inlets, what they feed, chargers' mains side, inverters' output."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from coordination.reading.fields import Field, FieldTable, choice, name, quantity, record

INLET: Final = FieldTable(
    {
        "voltage": quantity("voltage", "of the supply, as the country has it", required=True),
        "frequency": quantity("frequency", "of the supply"),
        "supply": choice(("pedestal", "outlet", "generator"), "what feeds it"),
        "breaker": quantity("current", "rating of the breaker upstream"),
        "inlet": quantity("current", "rating of the inlet"),
        "cord": quantity("current", "rating of the cord"),
        "cord_area": quantity("area", "of each conductor of the cord"),
        "cord_length": quantity("length", "of the cord"),
        "power": quantity("power", "what a generator gives for hours"),
        "continuous": quantity("ratio", "share of the breaker's rating that is drawn for hours"),
        "input_limit": quantity("current", "limit set at the inverter-charger"),
        "limits": choice(("inlet", "charger"), "whether it limits all that comes in, or charging"),
        "ground_fault_trip": quantity("current", "of the device upstream; not checked"),
    }
)

AC_LOAD: Final = FieldTable(
    {
        "inlet": name("inlet", "the inlet that feeds it", required=True),
        "power": quantity("power", "power it draws, with power_factor"),
        "power_factor": quantity("ratio", "of that power; 100 % for heaters"),
        "current": quantity("current", "current it draws, where no power is given", zero=True),
    }
)

MAINS_FIELDS: Final[Mapping[str, Field]] = {
    "inlet": name("inlet", "the inlet that feeds it", required=True),
    "efficiency": quantity("ratio", "given to the DC side over drawn"),
    "power_factor": quantity("ratio", "of its input"),
}

OUTPUT_FIELDS: Final[Mapping[str, Field]] = {
    "voltage": quantity("voltage", "that it gives", required=True),
    "power_factor": quantity("ratio", "of the largest load"),
    "surge": record(
        {
            "power": quantity("power", "that it gives for a moment", required=True),
            "time": quantity("time", "how long", required=True),
        },
        "power above the rated one, and for how long",
    ),
    "breaker": quantity("current", "rating of the breaker in its output"),
    "breaker_holds": record(
        {
            "current": quantity("current", "that it carries for a moment", required=True),
            "time": quantity("time", "how long", required=True),
        },
        "current that this breaker carries for a time, by its sheet",
    ),
    "conductor": quantity("current", "what the conductors behind it may carry where they lie"),
}
