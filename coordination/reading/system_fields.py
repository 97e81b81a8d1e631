"""The fields of the system file, section by section: the one list that reader and schema share."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from coordination.reading.fields import (
    Field,
    FieldTable,
    choice,
    flag,
    name,
    names,
    part,
    quantity,
    record,
    text,
    whole,
)
from coordination.reading.limits import AMBIENT
from coordination.reading.shore_fields import AC_LOAD, INLET, MAINS_FIELDS, OUTPUT_FIELDS

DEFAULT_PACKS: Final = ("fundamentals",)


def _section(meaning: str, entry: FieldTable | None = None, *, required: bool = False) -> Field:
    """A section of named entries, each read by the table `entry` (None: by its kind)."""
    return Field(shape="section", meaning=meaning, table=entry, required=required)


def _for_a_time(of: str, meaning: str) -> Field:
    """A current for a time."""
    columns = {
        "current": quantity("current", f"{of} current", required=True),
        "time": quantity("time", f"how long the {of} lasts", required=True),
    }
    return record(columns, meaning)


_ALONE: Final = flag("whether it may run with no battery beside it, as its sheet says")
_PLACE: Final = Field(shape="place", meaning="where it stands, one of places:")

PLACE: Final = FieldTable(
    {
        "ambient": quantity("temperature", "highest air temperature there", limits=AMBIENT),
        "coldest": quantity("temperature", "lowest air temperature there", limits=AMBIENT),
        "engine_space": flag("whether it is an engine space"),
    }
)

SOURCE: Final = FieldTable(
    {
        "part": part("battery", meaning="id of the battery", required=False),
        "current_limited": quantity("current", "the most that a charger or alternator gives"),
        "voltage": quantity("voltage", "highest voltage that a current-limited source holds"),
        "usable_depth": quantity("ratio", "share of the battery's capacity that is used here"),
        "continuous": quantity("current", "what an alternator or charger may give for hours"),
        "derating": Field(
            shape="pairs",
            meaning="share of that which it may give at each ambient",
            columns=(("temperature", "temperature"), ("factor", "factor")),
        ),
        "regulated": flag("whether something holds it to that when it is asked for more"),
        "mains": record(MAINS_FIELDS, "of a charger: what feeds it"),
        "runs_without_battery": _ALONE,
        "place": _PLACE,
    },
    part_kind="battery",
)

#: Fields of a source that is no battery.
LIMITED_ONLY: Final = (
    "current_limited", "voltage", "continuous", "derating", "regulated",
    "runs_without_battery",
)  # fmt: skip

BUSBAR: Final = FieldTable(
    {
        "part": part("busbar", meaning="id of the busbar"),
        "place": _PLACE,
        "order": names("circuit", "its circuits in the order in which they sit along the bar"),
    },
    part_kind="busbar",
)

EQUIPMENT: Final = FieldTable(
    {
        "power": quantity("power", "power it gives or uses, with efficiency and min_voltage"),
        "efficiency": quantity("ratio", "share of the drawn power that it uses"),
        "min_voltage": quantity("voltage", "lowest voltage at which it draws that power"),
        "current": quantity("current", "current it draws, where no power is given", zero=True),
        "surge": _for_a_time("surge", "current above the continuous one, and for how long"),
        "start": _for_a_time("start", "current while its motor starts, and for how long"),
        "stall": _for_a_time("stall", "current while its motor is blocked, and how long it may be"),
        "duty": quantity("ratio", "largest share of the time in which it runs"),
        "least_duty": quantity("ratio", "least share of the time in which it runs", zero=True),
        "must_run": quantity("time", "how long it must run on batteries alone"),
        "inrush": record(
            {
                "capacitance": quantity("capacitance", "input capacitance", required=True),
                "resistance": quantity("resistance", "of the capacitors and their own leads"),
            },
            "what is charged when it is connected",
        ),
        "critical": flag("whether it must stay alive: bilge pump, navigation"),
        "cranking": flag("whether it is an engine starter"),
        "drop_limit": quantity("ratio", "voltage drop allowed, as a share of nominal"),
        "output": record(OUTPUT_FIELDS, "of an inverter: its AC side"),
        "place": _PLACE,
    }
)

CONVERTER: Final = FieldTable(
    {
        "output_current": quantity("current", "the most that it gives", required=True),
        "output_voltage": quantity("voltage", "highest voltage that it holds", required=True),
        "efficiency": quantity("ratio", "output power as a share of input power"),
        "min_input_voltage": quantity("voltage", "lowest voltage at which it works"),
        "isolated": flag("whether input and output share no conductor"),
        "runs_without_battery": _ALONE,
        "place": _PLACE,
    }
)

RETURN: Final = FieldTable(
    {
        "cable": part("cable", meaning="id of the return's cable", required=False),
        "length": quantity("length", "one way; default: as the positive"),
        "runs": whole("equal cables in parallel"),
        "resistance": quantity("resistance", "of a chassis or other path", zero=True),
    }
)

_SHARED: Final[Mapping[str, Field]] = {
    "name": Field(shape="text", meaning="its own name; else it is <circuit>/<number>"),
    "place": _PLACE,
}
_DISTANCE: Final = quantity("length", "along the conductor from the source", zero=True)
_SHEATHED: Final = flag("whether the conductor is sheathed or in a conduit")
_IN_LINE: Final[Mapping[str, Field]] = {"distance": _DISTANCE, "sheathed": _SHEATHED}

#: Kind of element -> its fields; the kind's own key names the part (or states the resistance).
ELEMENTS: Final[Mapping[str, FieldTable]] = {
    "fuse": FieldTable(
        {"fuse": part("fuse", meaning="id of the fuse"), **_SHARED, **_IN_LINE}, "fuse"
    ),
    "breaker": FieldTable(
        {
            "breaker": part("breaker", meaning="id of the breaker"),
            **_SHARED,
            **_IN_LINE,
            "plus_towards": choice(
                ("start", "end"), "towards which end of the circuit its + terminal lies"
            ),
        },
        "breaker",
    ),
    "cable": FieldTable(
        {
            "cable": part("cable", meaning="id of the cable"),
            **_SHARED,
            "length": quantity("length", "one way", required=True),
            "sheathed": _SHEATHED,
            "bundle": whole("circuits bundled together, this one included"),
            "runs": whole("equal cables in parallel"),
            "spacing": quantity("length", "between the centres of positive and return"),
            "return": Field(
                shape="return",
                meaning="how the current comes back; default: the same cable, as long",
                table=RETURN,
            ),
        },
        "cable",
    ),
    "disconnect": FieldTable(
        {
            "disconnect": part("disconnect", meaning="id of the switch"),
            **_SHARED,
            "normally": choice(("open", "closed"), "its position as drawn (default: closed)"),
            "operated_by": name("operator", "the source whose electronics drive it"),
        },
        "disconnect",
    ),
    "channel": FieldTable(
        {"channel": part("channel", meaning="id of the module's output"), **_SHARED, **_IN_LINE},
        "channel",
    ),
    "joint": FieldTable(
        {
            "joint": Field(
                shape="band",
                meaning="its resistance, one value or {min, max}",
                required=True,
                dimension="resistance",
                limits=quantity("resistance", "", zero=True).limits,
            ),
            **_SHARED,
        }
    ),
}

CIRCUIT: Final = FieldTable(
    {
        "from": name("point", "the point where it begins", required=True),
        "to": name("point", "the point where it ends", required=True),
        "parts": Field(shape="elements", meaning="its elements in order", required=True),
        "place": _PLACE,
    }
)

CONDITION: Final = FieldTable(
    {
        "close": names("close", "switches that are closed"),
        "open": names("open", "switches, breakers and fuses that are open"),
        "without": names("without", "sources, converters, equipment, circuits that are out"),
        "draw": Field(
            shape="shares",
            meaning="share of its current that each equipment draws",
            role="draw",
            dimension="ratio",
            limits=quantity("ratio", "", zero=True).limits,
        ),
    }
)

WAIVER: Final = FieldTable(
    {
        "rule": text("the rule, as pack/rule-name", required=True),
        "subject": name("subject", "the thing it is waived for", required=True),
        "reason": text("why", required=True),
        "by": text("who accepts it", required=True),
        "date": Field(shape="date", meaning="when, as YYYY-MM-DD", required=True),
    }
)

SYSTEM: Final = FieldTable(
    {
        "system": text("what the installation is called", required=True),
        "nominal_voltage": quantity("voltage", "nominal voltage of the house side"),
        "packs": Field(shape="texts", meaning="rule packs to check by (default: fundamentals)"),
        "ampacity": text("name of the ampacity basis (default: the first that the packs bring)"),
        "places": _section("where things stand, and how warm it is there", PLACE),
        "parts": _section("one-off parts with the catalogue's fields; they shadow the catalogue"),
        "sources": _section("batteries, and current-limited sources", SOURCE, required=True),
        "busbars": _section("bars and blocks where circuits meet", BUSBAR),
        "equipment": _section("what draws current", EQUIPMENT),
        "converters": _section(
            "DC-DC converters: a load at <name>.input, a source at <name>.output", CONVERTER
        ),
        "shore": _section("where AC comes in: cords, generators", INLET),
        "ac_loads": _section("what an inlet feeds straight through", AC_LOAD),
        "circuits": _section("chains of parts from one point to another", CIRCUIT, required=True),
        "conditions": _section("operating conditions; 'normal' always exists", CONDITION),
        "waivers": _section("fails that somebody accepted, and why", WAIVER),
        "options": _section("what the packs ask beside the drawing: {pack: {option: value}}"),
    }
)
