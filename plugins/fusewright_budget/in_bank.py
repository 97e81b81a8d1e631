"""A battery among others: its share of the full load, and the parts that carry all of it."""

from __future__ import annotations

from typing import Any

from coordination.rules.kit.joined import beyond, elements_at


def share_of(source: Any, study: Any) -> Any:
    """The share of a battery; None if it is out, alone, or nothing is drawn from its bank."""
    if source.part is None or source.name in study.condition.without:
        return None
    bank = study.bank_of(source.name)
    if bank is None or len(bank.sources) < 2 or idle(bank, study):
        return None
    return next(share for share in study.shares(bank) if share.source is source)


def idle(bank: Any, study: Any) -> bool:
    """Whether it is known that nothing is drawn from a bank."""
    return getattr(study.at_once(bank), "value", None) == 0.0


def own_elements(source: Any, study: Any) -> tuple[Any, ...]:
    """The closed elements from a battery to the first point where anything else is joined.

    They carry the battery's whole current; none where more than one begins at its terminals.
    """
    system = study.system
    busy = {*system.sources, *system.busbars, *system.equipment}
    busy |= {f"{name}.{end}" for name in system.converters for end in ("input", "output")}
    found: list[Any] = []
    point, last = source.name, None
    while True:
        onward = [each for each in elements_at(point, study) if each is not last]
        if len(onward) != 1 or (found and point in busy):
            return tuple(found)
        last = onward[0]
        found.append(last)
        point = beyond(last, point)
        if len(found) > len(system.elements()):
            return tuple(found)
