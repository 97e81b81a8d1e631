"""Finds parts of one kind by their figures, in the order of one of them.

The order comes from an index, so that of a million parts only as many are looked at as it takes
to fill the list. Where few fit, the rarest of the conditions is looked for first.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final, NamedTuple

from catalogue.finding.conditions import Condition, sql_of
from catalogue.store import Catalogue, Store

#: Parts looked at in the order of the sort before another way is tried.
_FEW: Final = 2000


class Asked(NamedTuple):
    """What is looked for.

    sort       -- a column of the kind's table; empty: the first condition's, or the id
    descending -- whether the largest come first
    limit      -- how many are wanted
    """

    kind: str
    conditions: tuple[Condition, ...] = ()
    sort: str = ""
    descending: bool = False
    limit: int = 50


def find_by_measure(catalogue: Catalogue, asked: Asked) -> list[str]:
    """The ids of parts that fit, the shop's and the generic ones that it does not shadow, sorted.

    Those that do not state what is sorted by come last. One more than the limit is given if more
    fit. Raises CatalogueError.
    """
    if not asked.sort:
        stated = (each.column for each in asked.conditions if each.voltage is None)
        asked = asked._replace(sort=next(stated, ""))
    found = [] if catalogue.shop is None else _in_store(catalogue.shop, asked)
    generic = _in_store(catalogue.generic, asked)
    if catalogue.shop is not None:
        generic = [row for row in generic if not catalogue.shop.has(row[0])]
    rows = sorted([*found, *generic], key=lambda row: _order(row, asked.descending))
    return [part_id for part_id, _ in rows[: asked.limit + 1]]


def _order(row: tuple[str, Any], descending: bool) -> tuple[bool, float, str]:
    value = row[1]
    size = 0.0 if value is None else float(value)
    return value is None, -size if descending else size, row[0]


def _in_store(store: Store, asked: Asked) -> list[tuple[str, Any]]:
    """Id and sorted value of the first parts that fit in one file."""
    clauses, values = sql_of(asked.conditions)
    where = f"WHERE {clauses}" if clauses else ""
    if not asked.sort:
        query = (
            f"SELECT part.id, NULL FROM part JOIN {asked.kind} AS own USING (key) {where} "
            f"{'AND' if where else 'WHERE'} part.kind = '{asked.kind}' ORDER BY part.id LIMIT ?"
        )
        return store.ask(query, *values, asked.limit + 1)
    found = _sorted(store, asked, where, values)
    if len(found) <= asked.limit:
        absent = f"{'AND' if where else 'WHERE'} own.{asked.sort} IS NULL"
        found += store.ask(
            f"SELECT part.id, NULL FROM {asked.kind} AS own JOIN part USING (key) {where} {absent}"
            " LIMIT ?",
            *values, asked.limit + 1 - len(found),
        )  # fmt: skip
    return found


def _sorted(
    store: Store, asked: Asked, where: str, values: Sequence[Any]
) -> list[tuple[str, Any]]:
    """The first parts in the order of the sorted column, among those that state it."""
    way = "DESC" if asked.descending else "ASC"
    stated = f"{'AND' if where else 'WHERE'} own.{asked.sort} IS NOT NULL"
    return store.ask(
        f"SELECT part.id, own.{asked.sort} FROM {asked.kind} AS own JOIN part USING (key) {where}"
        f" {stated} ORDER BY own.{asked.sort} {way}, own.key {way} LIMIT ?",
        *values, asked.limit + 1,
    )  # fmt: skip
