"""What a run is about, in records that travel to workers and back."""

from __future__ import annotations

import json
import os
from datetime import date
from typing import Any, Final, NamedTuple

from catalogue.store import shop_path
from coordination.checking.local import Local
from coordination.sealing.hashes import of_bytes, of_program
from coordination.sealing.make import rule_files

#: Longest time [s] that one job may take, unless it is said otherwise.
LIMIT: Final = 300.0


class Setting(NamedTuple):
    """What every job of a run has in common.

    folder       -- from which paths count; catalogue -- the shop's file, None: there is none
    packs        -- run beside those of each file; without -- left out where a file asks for them
    local        -- files of rules that no installed pack brings
    today        -- the day (ISO date) on which editions must be in force
    program      -- hash of the program that all workers must have
    basis        -- hash of all of that: what was found on another basis is found anew
    changed_part -- check only what uses this part; empty: everything
    limit        -- longest time [s] that one job may take
    """

    folder: str
    catalogue: str | None
    packs: tuple[str, ...]
    without: tuple[str, ...]
    local: Local
    today: str
    program: str
    basis: str
    changed_part: str = ""
    limit: float = LIMIT


def setting_for(
    catalogue: str | None,
    packs: tuple[str, ...],
    local: Local,
    without: tuple[str, ...] = (),
    changed_part: str = "",
    limit: float = LIMIT,
) -> Setting:
    """The setting of a run from here and today. Raises BadInput: files of rules are unusable."""
    if local.house_rules:
        from coordination.rules.house import read_house_rules

        read_house_rules(local.house_rules)
    rules = [(each.kind, each.name, each.sha256) for each in rule_files(local)]
    program = of_program()
    basis = of_bytes(json.dumps([program, packs, without, rules]).encode())
    return Setting(
        folder=os.getcwd(),
        catalogue=shop_path(catalogue),
        packs=packs,
        without=without,
        local=local,
        today=date.today().isoformat(),
        program=program,
        basis=basis,
        changed_part=changed_part,
        limit=limit,
    )


class Order(NamedTuple):
    """One file to check: its place in the run; `named` files are jobs, whatever they hold.

    key -- what it was checked with the last time, if that is known: it need not be done again
    """

    number: int
    path: str
    named: bool = False
    key: dict[str, Any] | None = None


class Outcome(NamedTuple):
    """What became of an order.

    line -- for the list (see `line_types`); key -- what it rests on, None where it is not to be
            kept; kept -- nothing it rests on has changed, and the line of the last time holds
    seconds -- that it took
    """

    number: int
    line: dict[str, Any]
    key: dict[str, Any] | None = None
    kept: bool = False
    seconds: float = 0.0


class Unfit(Exception):  # noqa: N818 -- a worker is unfit, which is no error of the input
    """A worker that cannot take part: another program than the one that asks."""
