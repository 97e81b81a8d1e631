"""What goes dark as plain dictionaries for machines; `outage_types` tells their shape."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from coordination import __version__
from coordination.trace import Derived, Value

_DIALECT_TITLE = "Fusewright outages"


def outages_answer(
    studies: Mapping[str, Any], only: str | None, system: str, file: str
) -> dict[str, Any]:
    """All events, or those about one name; SI floats, None for what is not known."""
    from coordination.report.outage_detail import is_about

    live = next(iter(studies.values())).always_live
    return {
        "fusewright": __version__,
        "system": system,
        "file": file,
        "always_live": {"battery": sorted(live.kept), "limited": sorted(live.fed)},
        "conditions": {
            name: {
                "as_drawn": _leaves(study.before_any_event, study),
                "events": [
                    _event(outcome, study)
                    for outcome in study.outages
                    if only is None or is_about(outcome, only, studies)
                ],
            }
            for name, study in studies.items()
        },
    }


def outages_schema() -> dict[str, Any]:
    """JSON Schema of that answer."""
    from coordination.report.outage_types import OutageAnswer
    from coordination.report.schema import schema_of

    return schema_of(OutageAnswer, _DIALECT_TITLE)


def _event(outcome: Any, study: Any) -> dict[str, Any]:
    event = outcome.event
    entry = {
        "kind": event.kind,
        "name": event.name,
        "opens": list(event.opened),
        "loses": list(event.lost),
        "changes": _leaves(outcome, study),
    }
    if event.kind == "all switches":
        entry["stays_live"] = list(outcome.live)
    return entry


def _leaves(outcome: Any, study: Any) -> dict[str, Any]:
    return {
        "dark": list(outcome.dark),
        "stopped": list(outcome.stopped),
        "supplied": [_supplied(name, each, study) for name, each in outcome.supplied],
        "left": [{"source": left.source, "beside": list(left.beside)} for left in outcome.left],
        "isolated": list(outcome.isolated),
        "parted": [list(group) for group in outcome.parted],
    }


def _supplied(equipment: str, supplied: Any, study: Any) -> dict[str, Any]:
    return {
        "equipment": equipment,
        "state": supplied.state,
        "sources": list(supplied.sources),
        "limit_A": _float(study.limited_supply(supplied)),
        "drawn_A": _float(study.limited_demand(supplied)),
        "missing": list(supplied.missing),
    }


def _float(value: Value) -> float | None:
    return value.value if isinstance(value, Derived) else None
