"""Generic fuses: what ISO 8820, UL 248 and IEC 60269 demand of them at least."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final

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

#: What a let-through measured on AC is worth on DC.
AC_FIGURE: Final = "an AC figure, used within the part's DC marking"


def fuses() -> Iterator[Draft]:
    """Every generic fuse."""
    yield from _road_vehicle()
    yield from _ul248()
    yield from _gg()


def _road_vehicle() -> Iterator[Draft]:
    """Blade and strip fuses, at each rated voltage of their standard."""
    for family in rows("road_vehicle_fuses"):
        gates: list[Row] = [
            {**row, "multiple_of_rating": str(float(row["percent_of_rating"]) / 100)}
            for row in rows("road_vehicle_fuse_gates")
            if row["family"] == family["family"]
        ]
        for voltage in family["voltages_V"].split(";"):
            for text, rating in ratings(family):
                suffix = "" if voltage == "32" else f"-{voltage}v"
                stated = _road_vehicle_fuse(family, gates, voltage, rating)
                yield Draft(f"{family['id']}-{text}{suffix}", "fuse", stated)


def _road_vehicle_fuse(
    family: Row, gates: list[Row], voltage: str, rating: float
) -> dict[str, Any]:
    curve = curve_of(gates, rating, "min_melt", "max_clear")
    sources = [gate["source"] for gate in gates]
    volts = with_unit(voltage, "V")
    return {
        "description": f"{with_unit(rating, 'A')} {family['description']}, {volts}",
        "family": "blade" if "blade" in family["id"] else "strip",
        "rated_current": with_unit(rating, "A"),
        "rated_voltage": volts,
        "interrupt_ratings": [{"voltage": volts, "current": with_unit(family["breaking_A"], "A")}],
        **({"curve": curve} if curve else {}),
        **provenance(family["document"], family["clause"], sources),
        "notes": notes(
            "voltage and breaking capacity read in the scope of the standard",
            "no operating times at hand" if not gates else "",
            *sources,
            "a guide to continuous load is 70 to 80 % of the rating (from memory, not read here)",
        ),
    }


def _ul248() -> Iterator[Draft]:
    """UL 248 classes: as they come, without any DC rating, and as commonly DC-marked."""
    for family in rows("ul248_classes"):
        for text, rating in ratings(family):
            yield Draft(f"{family['id']}-{text}", "fuse", _ul248_fuse(family, rating))
            yield Draft(f"{family['id']}-{text}-dc", "fuse", _ul248_marked(family, rating))
            if family["time_delay"] == "yes":
                stated = _ul248_fuse(family, rating, delay=True)
                yield Draft(f"{family['id']}-{text}-delay", "fuse", stated)


def _ul248_gates(name: str, rating: float, delay: bool) -> list[Row]:
    wanted = {"any", name, *(["time-delay"] if delay else [])}
    return [
        row
        for row in rows("ul248_gates")
        if row["class"] in wanted
        and float(row["rating_min_A"]) <= rating <= float(row["rating_max_A"])
    ]


def _ul248_fuse(family: Row, rating: float, *, delay: bool = False) -> dict[str, Any]:
    """A fuse without DC marking: its rated current and its overload gates, nothing more."""
    gates = _ul248_gates(family["class"], rating, delay)
    sources = [gate["source"] for gate in gates]
    kind = f"time-delay {family['description']}" if delay else family["description"]
    return {
        "description": f"{with_unit(rating, 'A')} {kind} without DC marking",
        "family": f"class-{family['class'].lower()}",
        "rated_current": with_unit(rating, "A"),
        "curve": curve_of(gates, rating, "min_melt", "max_clear"),
        **provenance(f"{family['document']}; UL 248-1", "ratings; overload table", sources),
        "notes": notes(
            "a DC rating is optional and this part has none: its AC rating of "
            f"{family['ac_volts_V']} V, {with_unit(family['ac_breaking_A'], 'A')} is no DC rating",
            *sources,
        ),
    }


def _ul248_marked(family: Row, rating: float) -> dict[str, Any]:
    """The same as commonly DC-marked: what the marking on the fuse in hand must confirm."""
    volts, breaking = family["dc_volts_V"], family["dc_breaking_A"]
    stated = _ul248_fuse(family, rating)
    energy = _let_through(family, rating)
    return {
        **stated,
        "description": f"{with_unit(rating, 'A')} {family['description']} as commonly DC-marked, "
        f"{volts} V DC; check the marking",
        "rated_voltage": with_unit(volts, "V"),
        "interrupt_ratings": [
            {"voltage": with_unit(volts, "V"), "current": with_unit(breaking, "A")}
        ],
        **({"clearing_i2t": with_unit(energy["clearing_i2t_max_A2s"], "A²s")} if energy else {}),
        "document": f"common practice; {stated['document']}",
        "page": "marking; overload table",
        "status": "draft",
        "notes": notes(
            family["dc_source"],
            *(gate["source"] for gate in _ul248_gates(family["class"], rating, False)),
            f"clearing I²t: {AC_FIGURE}, up to {energy['available_kA']} kA" if energy else "",
            energy["source"] if energy else "",
        ),
    }


def _let_through(family: Row, rating: float) -> Row | None:
    """The maxima for its case: at the highest AC volts of its class, at the nearest fault current
    that is no less than it breaks on DC.
    """
    found = [
        row
        for row in rows("ul248_letthrough")
        if row["class"] == family["class"]
        and float(row["case_A"]) >= rating
        and float(row["available_kA"]) * 1000 >= float(family["dc_breaking_A"])
    ]
    return min(
        found,
        default=None,
        key=lambda row: (
            float(row["case_A"]), -float(row["ac_volts_V"]), float(row["available_kA"])
        ),
    )


def _gg() -> Iterator[Draft]:
    """gG fuses: without marked DC voltage, and as commonly marked."""
    energies = rows("gg_energies")
    for row in rows("gg_gates"):
        (energy,) = (each for each in energies if each["rating_A"] == row["rating_A"])
        stated = _gg_fuse(row, energy)
        yield Draft(f"fuse-gg-{row['rating_A']}", "fuse", stated)
        marked = {
            **stated,
            "description": f"{row['rating_A']} A gG fuse as commonly DC-marked, 250 V DC; "
            "check the marking",
            "rated_voltage": "250 V",
            "interrupt_ratings": [{"voltage": "250 V", "current": "25 kA"}],
            "clearing_i2t": with_unit(energy["operating_max_A2s"], "A²s"),
            "document": f"common practice; {stated['document']}",
            "notes": notes(
                f"clearing I²t: {AC_FIGURE}",
                "250 V DC is common practice; 25 kA is the least DC breaking capacity of IEC "
                "60269-2 (from memory, not read here)",
                stated["notes"],
            ),
        }
        yield Draft(f"fuse-gg-{row['rating_A']}-dc", "fuse", marked)


def _gg_fuse(row: Row, energy: Row) -> dict[str, Any]:
    rating = float(row["rating_A"])
    (usual,) = (band for band in rows("gg_conventional") if applies(band, rating))
    hold = [with_unit(float(usual["nonfusing_x_In"]) * rating, "A")]
    fuse = [with_unit(float(usual["fusing_x_In"]) * rating, "A")]
    time = with_unit(float(usual["time_h"]), "h")
    ten, tenth = with_unit(row["Imin_10s_A"], "A"), with_unit(row["Imin_0p1s_A"], "A")
    stated = {
        "description": f"{row['rating_A']} A gG fuse without marked DC voltage",
        "family": "gG",
        "rated_current": with_unit(rating, "A"),
        "curve": {
            "min_melt": [[*hold, time], [ten, "10 s"], [tenth, "0.1 s"]],
            "max_clear": [[*fuse, time], [with_unit(row["Imax_5s_A"], "A"), "5 s"]],
            "between": "gates",
        },
        "derating": [["20 °C", "100 %"], ["40 °C", "100 %"]],
        **provenance("IEC 60269-1; IEC 60269-2", "gates, conventional currents", [row["source"]]),
        "notes": notes(
            "the gates are pre-arcing times: that of 0.1 s is left out of max_clear, because on DC "
            f"the arc adds to it (no longer than 0.1 s before arcing at {row['Imax_0p1s_A']} A)",
            "melting I²t: the least that the standard asks for at 10 ms or at 4 ms",
            row["source"],
            energy["source"],
            usual["source"],
            "no derating up to 40 °C: IEC 60269-1, clause 3; from memory, not read here",
        ),
    }
    stated["melting_i2t"] = with_unit(_least_melting(energy), "A²s")
    return {**stated, **_gg_resistance(rating)}


def _least_melting(energy: Row) -> float:
    """The lower of two minima [A²s]: a fuse that keeps to both may melt with that little."""
    columns = ("prearcing_min_10ms_A2s", "prearcing_min_4ms_A2s")
    return min(float(energy[column]) for column in columns if energy[column])


def _gg_resistance(rating: float) -> dict[str, Any]:
    """An upper bound where the standard limits the heat: R = P/I²."""
    found = [row for row in rows("gg_resistance") if float(row["rating_A"]) == rating]
    if not found:
        return {}
    largest = float(found[0]["dissipation_W"]) / rating**2 * 1000
    return {"resistance": {"min": "0 mΩ", "max": f"{largest:.3g} mΩ"}}
