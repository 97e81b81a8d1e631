"""The energy report for machines: plain data, in SI, null where a figure is unknown."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import TYPE_CHECKING, Any

from coordination import __version__
from coordination.report.answer import finite, step_entry
from coordination.report.energy_rows import NOT_COMPUTED
from coordination.trace import Derived, unknowns

if TYPE_CHECKING:
    from coordination.report.answer_types import Step
    from coordination.report.energy_rows import BankRow, ConditionRow, LinkRow, SupplyRow
    from coordination.report.energy_types import (
        BankEntry,
        BatteryEntry,
        EnergyAnswer,
        EnergyCondition,
        FlowEntry,
        SupplyEntry,
    )
    from coordination.trace import Value


def energy_answer(rows: Mapping[str, ConditionRow], system: str, file: str) -> EnergyAnswer:
    """The answer, as data for json.dumps."""
    return {
        "fusewright": __version__,
        "system": system,
        "file": file,
        "conditions": {name: _condition(row) for name, row in rows.items()},
        "not_computed": list(NOT_COMPUTED),
    }


def _condition(row: ConditionRow) -> EnergyCondition:
    return {
        "banks": {bank.name: _bank(bank) for bank in row.banks},
        "sources": {each.name: _supply(each) for each in row.supplies},
        "converters": {each.name: _supply(each) for each in row.balances},
        "links": {link.name: _flows(link) for link in row.links},
    }


def _range(found: Any) -> Any:
    return {key: finite(getattr(found, key)) for key in ("least", "nominal", "most")}


def steps_in(values: Iterable[Value]) -> list[Step]:
    """Every step behind these values, each once."""
    found: dict[int, Derived] = {}
    for value in values:
        for step in value.steps() if isinstance(value, Derived) else ():
            found.setdefault(id(step), step)
    return [step_entry(step) for step in found.values()]


def _bank(bank: BankRow) -> BankEntry:
    return {
        "usable_As": _range(bank.usable),
        "usable_J": finite(bank.energy),
        "loads": {
            load.subject.name: {
                "running_A": finite(load.running),
                "share": finite(load.share),
                "duty": finite(load.duty),
                "average_A": _range(load.average),
                "at_low_voltage_A": finite(load.at_once),
            }
            for load in bank.loads
        },
        "runs": [
            {
                "drawn": run.words,
                "current_A": _range(run.current),
                "time_s": _range(run.time),
                "missing": list(unknowns(run.time)),
                "steps": steps_in(run.time),
            }
            for run in bank.runs
        ],
        "recharges": [
            {
                "sources": list(each.names),
                "gives_A": finite(each.gives),
                "into_bank_A": finite(each.into),
                "time_s": finite(each.time),
                "missing": list(unknowns((each.into, each.time))),
                "steps": steps_in((each.into, each.time)),
            }
            for each in bank.recharges
        ],
        "batteries": _batteries(bank),
    }


def _batteries(bank: BankRow) -> dict[str, BatteryEntry]:
    shares = {share.source.name: share for share in bank.shares}
    joined = {each.source.name: each for each in bank.joinings}
    charging = {name: (flows, limit) for name, flows, limit in bank.charging}
    found: dict[str, BatteryEntry] = {}
    for name in dict.fromkeys((*shares, *charging)):
        share = shares.get(name)
        flows, limit = charging.get(name, (None, None))
        found[name] = {
            "share_A": finite(share.current) if share else None,
            "of_average": finite(share.ratio) if share else None,
            "charged_with_A": finite(flows),
            "may_be_charged_with_A": finite(limit),
            "joined_full_A": finite(joined[name].full) if name in joined else None,
            "joined_apart_A": finite(joined[name].apart) if name in joined else None,
        }
    return found


def _supply(row: SupplyRow) -> SupplyEntry:
    return {
        "asked_A": finite(row.asked),
        "gives_A": finite(row.gives),
        "missing": list(unknowns((row.asked, row.gives))),
    }


def _flows(link: LinkRow) -> list[FlowEntry]:
    return [
        {
            "giving": [source.name for source in flow.giving],
            "taking": [source.name for source in flow.taking],
            "current_A": finite(flow.current),
            "time_constant_s": finite(flow.time_constant),
            "batteries_A": {name: finite(value) for name, value in flow.each.items()},
            "through_A": {name: finite(value) for name, value in flow.through.items()},
            "missing": list(unknowns((flow.current, flow.time_constant))),
            "steps": steps_in((flow.current, flow.time_constant)),
        }
        for flow in link.flows
    ]
