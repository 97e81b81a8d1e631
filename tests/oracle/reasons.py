"""Why a verdict may differ from the judge's without being wrong, each checked on the system.

A pass of the engine that the judge does not share is never explained here.
"""

from __future__ import annotations

from typing import Any

from tests.oracle.judge import State, Verdict
from tests.oracle.plant import Element, Plant

TIMED = ("cable-withstand", "selectivity")
CABLES = ("cable-ampacity", "cable-overload", "cable-withstand")


def reason(
    rule: str, engine: str, judged: Verdict | None, finding: dict[str, Any] | None,
    element: Element, states: list[State],
) -> str:  # fmt: skip
    """The reason; empty where there is none."""
    own = "nothing" if judged is None else judged.verdict
    if finding is None:
        return ""
    if engine == "pass" and own != "nothing":
        return ""
    plant = states[0].plant
    exempt = rule in CABLES and "exempt by custom" in finding["because"]
    if engine == "note" and exempt and _leads_to_starter(plant, element):
        return "a starter's conductor, exempt by custom"
    if engine == "unproven" and finding["missing"]:
        return _unknown(rule, own, finding, element, plant)
    if rule in TIMED and _limited_only(finding, element, states):
        return "limited sources alone: the engine counts each device with all of the current"
    if engine == "fail" and own == "unproven":
        return "the engine fails what the judge leaves open"
    if rule == "selectivity" and (engine, own) == ("fail", "pass") and _in_series(plant, element):
        return "the judge lets a device in series, with nothing fed between, help at every current"
    if rule in TIMED and engine == "fail" and judged and judged.used > 0.8:
        return "close to the limit, and the judge neglects the rise of the current"
    if (engine, own) == ("fail", "pass") and rule == "cable-overload":
        return "the engine counts the nearest devices alone, the judge all of the way"
    return ""


def _limited_only(finding: dict[str, Any], element: Element, states: list[State]) -> bool:
    state = next(s for s in states if s.condition == finding["condition"])
    return state.island(element.start) not in state.block.batteries


def _in_series(plant: Plant, element: Element) -> bool:
    return sum(e.protective for e in plant.elements if e.circuit == element.circuit) > 1


def _unknown(
    rule: str, own: str, finding: dict[str, Any], element: Element, plant: Plant
) -> str:
    if own == "pass":
        return f"not stated ({_kind(finding)}), and by the judge it does not matter"
    if rule in CABLES and _leads_to_starter(plant, element):
        return "a starter's conductor: exempt where it fails, unknown in another condition"
    return f"not stated ({_kind(finding)}), and by the judge it fails whatever it is"


def _kind(finding: dict[str, Any]) -> str:
    return str(finding["missing"][0]).rpartition(": ")[2].partition(" at ")[0].partition(" (")[0]


def _leads_to_starter(plant: Plant, element: Element) -> bool:
    """Whether its circuit ends on a starter, or joins a battery to where a starter's begins."""
    ends = {name: (circuit["from"], circuit["to"]) for name, circuit in plant.raw[
        "circuits"].items()}  # fmt: skip
    own = ends[element.circuit]
    batteries = {s.point for s in plant.supplies if s.part is not None}
    if plant.cranking.intersection(own):
        return True
    begins = {point for pair in ends.values() if plant.cranking.intersection(pair)
              for point in pair}  # fmt: skip
    return bool(batteries.intersection(own) and begins.intersection(own))
