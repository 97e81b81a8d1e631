"""Ids by their beginning, for a shell that completes them: by the index, however many there are."""

from __future__ import annotations

from catalogue.store import Catalogue


def ids_from(catalogue: Catalogue, beginning: str, most: int) -> list[str]:
    """The first ids that begin so, in order, the shop's and the generic ones; at most so many."""
    found: set[str] = set()
    for store in (catalogue.shop, catalogue.generic):
        if store is not None:
            rows = store.ask(
                "SELECT id FROM part WHERE id >= ? AND id < ? ORDER BY id LIMIT ?",
                beginning, beginning + "\U0010ffff", most,
            )  # fmt: skip
            found.update(row[0] for row in rows)
    return sorted(found)[:most]
