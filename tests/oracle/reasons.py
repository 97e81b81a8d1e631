"""Why a verdict may differ from the judge's without being wrong, each checked on the system.

A pass of the engine that the judge does not share is never explained here.
"""

from __future__ import annotations

from typing import Any

from tests.oracle.plant import Element, Plant, Supply
from tests.oracle.state import State, Verdict
from tests.oracle.ways import reached

TIMED = ("cable-withstand", "selectivity")
CABLES = (
    "cable-ampacity", "cable-overload", "cable-withstand", "return-conductor", "source-protection",
)  # fmt: skip
BOUNDED = ("cable-overload", "overload-clears", "return-conductor")


def reason(
    rule: str, engine: str, judged: Verdict | None, finding: dict[str, Any] | None,
    element: Element | Supply, states: list[State],
) -> str:  # fmt: skip
    """The reason; empty where there is none."""
    own = "nothing" if judged is None else judged.verdict
    if finding is None:
        exempt = rule == "overload-clears" and isinstance(element, Element)
        starter = exempt and _leads_to_starter(states, element)
        return "a starter's conductor, exempt by custom" if starter else ""
    if engine == "pass" and own != "nothing":
        return ""
    plant = states[0].plant
    if isinstance(element, Supply):
        missing = engine == "unproven" and finding["missing"]
        return f"not stated ({_kind(finding)})" if missing else ""
    exempt = rule in CABLES and "exempt by custom" in finding["because"]
    if engine == "note" and exempt and _leads_to_starter(states, element):
        return "a starter's conductor, exempt by custom"
    if engine == "unproven" and finding["missing"]:
        return _unknown(rule, own, finding, element, states)
    if rule in TIMED and _limited_only(finding, element, states):
        return "limited sources alone: the engine counts each device with all of the current"
    if engine == "fail" and own == "unproven":
        return "the engine fails what the judge leaves open"
    if rule == "selectivity" and (engine, own) == ("fail", "pass") and _in_series(plant, element):
        return "the judge lets a device in series, with nothing fed between, help at every current"
    timed = (*TIMED, "fault-clears")
    if rule in timed and engine == "fail" and judged and judged.used > 0.8:
        return "close to the limit, and the judge neglects the rise of the current"
    risen = rule == "fault-clears" and "with the rise of the current" in finding["because"]
    if (engine, own) == ("fail", "pass") and risen:
        return "a mechanism's time jumps, and the judge neglects the rise of the current"
    if (engine, own) == ("fail", "pass") and rule in BOUNDED:
        return "the engine counts the nearest devices alone, the judge all of the way"
    return ""


def _limited_only(finding: dict[str, Any], element: Element | Supply, states: list[State]) -> bool:
    state = next(s for s in states if s.condition == finding["condition"])
    return state.island(element.start) not in state.block.batteries


def _in_series(plant: Plant, element: Element) -> bool:
    return sum(e.protective for e in plant.elements if e.circuit == element.circuit) > 1


def _unknown(
    rule: str, own: str, finding: dict[str, Any], element: Element, states: list[State]
) -> str:
    if own == "pass":
        return f"not stated ({_kind(finding)}), and by the judge it does not matter"
    if rule in CABLES and _leads_to_starter(states, element):
        return "a starter's conductor: exempt where it fails, unknown in another condition"
    return f"not stated ({_kind(finding)}), and by the judge it fails whatever it is"


def _kind(finding: dict[str, Any]) -> str:
    return str(finding["missing"][0]).rpartition(": ")[2].partition(" at ")[0].partition(" (")[0]


def _leads_to_starter(states: list[State], element: Element) -> bool:
    """Whether its circuit brings a battery to a starter, or to where such a circuit begins."""
    plant = states[0].plant
    ends = {name: (circuit["from"], circuit["to"]) for name, circuit in plant.raw[
        "circuits"].items()}  # fmt: skip
    own = ends[element.circuit]
    if _from_battery(states, own) is not None:
        return True
    batteries = {s.point for s in plant.supplies if s.part is not None}
    begins = {far for pair in ends.values() if (far := _from_battery(states, pair)) is not None}
    return bool(batteries.intersection(own) and begins.intersection(own))


def _from_battery(states: list[State], ends: tuple[str, str]) -> str | None:
    """The other end of a circuit at a starter, if a battery feeds it in some condition."""
    for starter, far in (ends, ends[::-1]):
        if starter not in states[0].plant.cranking:
            continue
        for state in states:
            at_starter = tuple(state.block.around[starter])
            batteries = {s.point for s in state.block.present if s.part is not None}
            if batteries & reached(state, far, at_starter, devices=True):
                return far
    return None
