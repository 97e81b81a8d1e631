"""Ids by their beginning, for a shell, and ids like one that is not there, for a near miss.

By indexes: neither takes longer for there being many parts.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Final

if TYPE_CHECKING:
    from catalogue.store import Catalogue, Store

#: Parts of one file up to which all ids are looked through for one that is like another.
SMALL: Final = 20_000
#: Ids taken of each way to look for one in a larger file.
_SOME: Final = 300
_PIECE: Final = re.compile(r"[^\W_]+")


def ids_from(catalogue: Catalogue, beginning: str, most: int) -> list[str]:
    """The first ids that begin so, in order, the shop's and the generic ones; at most so many."""
    found: set[str] = set()
    for store in (catalogue.shop, catalogue.generic):
        if store is not None:
            found.update(_beginning(store, beginning, most))
    return sorted(found)[:most]


def _beginning(store: Store, beginning: str, most: int) -> list[str]:
    rows = store.ask(
        "SELECT id FROM part WHERE id >= ? AND id < ? ORDER BY id LIMIT ?",
        beginning, beginning + "\U0010ffff", most,
    )  # fmt: skip
    return [row[0] for row in rows]


def ids_like(catalogue: Catalogue, part_id: str, kind: str | None = None) -> list[str]:
    """Ids of that kind among which one that may have been meant is looked for, in order.

    Of a large file only those that begin alike, or have all its words but one.
    """
    shop = catalogue.shop
    found = set(catalogue.generic.ids(kind))
    if shop is not None:
        ((large,),) = shop.ask("SELECT coalesce(max(key), 0) > ? FROM part", SMALL)
        found.update(_some(shop, part_id, kind) if large else shop.ids(kind))
    return sorted(found)


def _some(store: Store, part_id: str, kind: str | None) -> list[str]:
    ids = _beginning(store, part_id[: max(2, len(part_id) - 2)], _SOME)
    pieces = _PIECE.findall(part_id.lower())[:6]
    for left in range(len(pieces) if len(pieces) > 1 else 0):
        words = " AND ".join(f'"{piece}"' for piece in (*pieces[:left], *pieces[left + 1 :]))
        rows = store.ask(
            "SELECT id FROM part WHERE key IN (SELECT rowid FROM part_words WHERE part_words "
            "MATCH ? LIMIT ?)", words, _SOME,
        )  # fmt: skip
        ids += [row[0] for row in rows]
    if kind is None:
        return ids
    return [each for each in ids if store.ask("SELECT 1 FROM part WHERE id = ? AND kind = ?",
                                              each, kind)]  # fmt: skip
