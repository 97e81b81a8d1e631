"""Finds parts of one kind by their figures, in the order of one of them.

First the first parts in the order of the sort are looked at, by its index: mostly they fill the
list. If not, the rarest of the conditions is looked for by its own index; where all are common,
the walk in the order of the sort goes on until the list is full.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, Final, NamedTuple

from catalogue.finding.conditions import ROUNDING, Condition, sql_of
from catalogue.finding.tables import MEASURES
from catalogue.store import Catalogue, Store

#: Parts looked at in the order of the sort before the rarest condition is looked for.
_FIRST: Final = 400
#: Parts up to which a condition is rare: all of them are looked at and sorted.
_FEW: Final = 2000
#: Different voltages of interrupt ratings that are gone through; makers list some dozens.
_VOLTAGES: Final = 200
#: The different voltages from ?1 up, by the index: one search each. The last row is NULL.
_LISTED: Final = """
    WITH RECURSIVE listed (voltage) AS (
        SELECT min(voltage) FROM interrupt_rating WHERE voltage >= ?1
        UNION ALL
        SELECT (SELECT min(voltage) FROM interrupt_rating WHERE voltage > listed.voltage)
        FROM listed WHERE listed.voltage IS NOT NULL LIMIT ?2)"""
#: Keys of parts with any row of at least so much current at one of these voltages.
_RATED: Final = f"""{_LISTED}
    SELECT part_key FROM listed JOIN interrupt_rating AS row
        ON row.voltage = listed.voltage AND row.current >= ?3 LIMIT ?4"""


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
    where = f" AND {clauses}" if clauses else ""
    if not asked.sort:
        return store.ask(
            f"SELECT part.id, NULL FROM part JOIN {asked.kind} AS own USING (key) "
            f"WHERE part.kind = '{asked.kind}'{where} ORDER BY part.id LIMIT ?",
            *values, asked.limit + 1,
        )  # fmt: skip
    large = store.ask("SELECT coalesce(max(key), 0) > ? FROM part", _FEW)[0][0]
    if large and len(first := _among_first(store, asked)) > asked.limit:
        return first
    rare = _rare(store, asked) if large else None
    if rare is not None:
        where += f" AND own.key IN ({', '.join(map(str, rare))})"
    found = _sorted(store, asked, where, values, walk=rare is None)
    if len(found) <= asked.limit:
        found += store.ask(
            f"SELECT part.id, NULL FROM {asked.kind} AS own JOIN part USING (key) "
            f"WHERE own.{asked.sort} IS NULL{where} LIMIT ?",
            *values, asked.limit + 1 - len(found),
        )  # fmt: skip
    return found


def _sorted(
    store: Store, asked: Asked, where: str, values: Sequence[Any], *, walk: bool
) -> list[tuple[str, Any]]:
    """The first parts in the order of the sorted column, among those that state it.

    walk -- in the order of its index, where it has one; else all that fit are sorted
    """
    way = "DESC" if asked.descending else "ASC"
    by = f"own.{asked.sort}" if walk else f"+own.{asked.sort}"
    return store.ask(
        f"SELECT part.id, own.{asked.sort} FROM {asked.kind} AS own JOIN part USING (key) "
        f"WHERE {by} IS NOT NULL{where} ORDER BY {by} {way}, own.key {way} LIMIT ?",
        *values, asked.limit + 1,
    )  # fmt: skip


def _among_first(store: Store, asked: Asked) -> list[tuple[str, Any]]:
    """Those that fit among the first parts in the order of the sort."""
    of_sort = [each for each in asked.conditions if each.column == asked.sort]
    inner, values = sql_of(of_sort)
    outer, more = sql_of(each for each in asked.conditions if each.column != asked.sort)
    way = "DESC" if asked.descending else "ASC"
    return store.ask(
        f"SELECT part.id, own.{asked.sort} FROM (SELECT * FROM {asked.kind} AS own "
        f"WHERE own.{asked.sort} IS NOT NULL{inner and f' AND {inner}'} "
        f"ORDER BY own.{asked.sort} {way}, own.key {way} LIMIT ?) AS own JOIN part USING (key) "
        f"{outer and f'WHERE {outer}'} ORDER BY own.{asked.sort} {way}, own.key {way} LIMIT ?",
        *values, _FIRST + asked.limit, *more, asked.limit + 1,
    )  # fmt: skip


def _rare(store: Store, asked: Asked) -> list[int] | None:
    """Keys of all parts that keep to the rarest condition; None: none of them is rare."""
    found = None
    for condition in asked.conditions:
        if condition.voltage is not None:
            least = condition.voltage * (1 - ROUNDING)
            current = condition.value * (1 - ROUNDING)
            if _many_voltages(store, least):
                continue
            query, values = _RATED, [least, _VOLTAGES, current, _FEW + 1]
        elif (asked.kind, condition.column) in MEASURES:
            clause, values = sql_of((condition,))
            query = f"SELECT key FROM {asked.kind} AS own WHERE {clause} LIMIT ?"
            values.append(_FEW + 1)
        else:
            continue
        keys = [row[0] for row in store.ask(query, *values)]
        if len(keys) <= _FEW and (found is None or len(keys) < len(found)):
            found = keys
    return found


def _many_voltages(store: Store, least: float) -> bool:
    """Whether so many different voltages are listed that not all would be gone through."""
    count = store.ask(f"{_LISTED} SELECT count(*) FROM listed", least, _VOLTAGES)
    return int(count[0][0]) >= _VOLTAGES
