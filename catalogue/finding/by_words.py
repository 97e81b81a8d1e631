"""Finds parts by words: of id, kind, family, description and document; all words must occur.

A word fits where a word of the part begins with it; a number or a single letter must be whole.
The index of words gives those that may fit; the parts' own texts decide.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from typing import Final, NamedTuple

from catalogue.store import Catalogue, Store

#: Candidates fetched at once, and the most that are looked at: an odd search ends as well.
_PORTION, _MOST = 500, 20_000
#: Words of the index that one beginning may stand for.
_BEGINNINGS: Final = 40
#: Most words of a vocabulary that near misses are looked for among, per file.
_VOCABULARY: Final = 200_000
#: Likeness in per cent from which a word is offered for one that no part has.
_LIKE: Final = 60
_PIECE: Final = re.compile(r"[^\W_]+")
_WORD: Final = re.compile(r"[^\W_]+(?:\.\d+)?")


class Hits(NamedTuple):
    """Ids in order, and the words they fit if other words than those asked for."""

    ids: list[str]
    instead: str = ""


def find_by_words(
    catalogue: Catalogue, words: Iterable[str], kind: str | None = None, limit: int = 50
) -> Hits:
    """Parts that have all words; where none has, parts with the nearest words there are.

    One more than the limit is given if more fit. Raises CatalogueError.
    """
    # Not yet folded: the index has its own way with ß and accents.
    wanted = [word.lower() for text in words for word in text.split()]
    found = _everywhere(catalogue, wanted, kind, limit)
    if found or not wanted:
        return Hits(found)
    nearest = _nearest(catalogue, wanted)
    if nearest == wanted:
        return Hits([])
    return Hits(_everywhere(catalogue, nearest, kind, limit), " ".join(nearest))


def _everywhere(
    catalogue: Catalogue, wanted: list[str], kind: str | None, limit: int
) -> list[str]:
    shop = catalogue.shop
    mine = [] if shop is None else list(_in_store(shop, wanted, kind, limit + 1))
    generic = _in_store(catalogue.generic, wanted, kind, limit + 1)
    below = [part_id for part_id in generic if shop is None or not shop.has(part_id)]
    return sorted([*mine, *below])[: limit + 1]


def _in_store(store: Store, wanted: list[str], kind: str | None, limit: int) -> Iterator[str]:
    """Ids of up to `limit` parts of one file that have all words."""
    match = _match(store, wanted)
    if match is None:
        return
    count, last, seen = 0, -1, 0
    while seen < _MOST:
        found = store.ask(
            "SELECT rowid FROM part_words WHERE part_words MATCH ? AND rowid > ? "
            "ORDER BY rowid LIMIT ?",
            match, last, _PORTION,
        ) if match else store.ask(
            "SELECT key FROM part WHERE key > ? ORDER BY key LIMIT ?", last, _PORTION
        )  # fmt: skip
        for (key,) in found:
            ((part_id, own_kind, *texts),) = store.ask(
                "SELECT id, kind, family, description, document FROM part_text WHERE key = ?", key
            )
            if (kind is None or own_kind == kind) and matches(wanted, part_id, own_kind, *texts):
                yield part_id
                count += 1
                if count >= limit:
                    return
        if len(found) < _PORTION:
            return
        last, seen = found[-1][0], seen + len(found)


def _match(store: Store, wanted: list[str]) -> str | None:
    """What to ask the index of words; None if it can give nothing, "" if it cannot tell."""
    terms = []
    for word in wanted:
        pieces = _PIECE.findall(word)
        for number, piece in enumerate(pieces):
            whole = len(word) == 1 or piece.isdigit() or number < len(pieces) - 1
            if whole or _has(store, piece):
                terms.append(f'"{piece}"')
                continue
            longer = _longer(store, piece)
            if not longer:
                return None
            terms.append(f"({' OR '.join(longer)})")
    return " AND ".join(terms)


def _has(store: Store, piece: str) -> bool:
    query = "SELECT 1 FROM part_words WHERE part_words MATCH ? LIMIT 1"
    return bool(store.ask(query, f'"{piece}"'))


def _words(store: Store, begin: str, end: str, most: int) -> list[str]:
    """Words of the index of one file from `begin` to below `end`."""
    store.ask(
        "CREATE VIRTUAL TABLE IF NOT EXISTS temp.vocabulary "
        "USING fts5vocab (main, part_words, 'row')"
    )
    query = "SELECT term FROM temp.vocabulary WHERE term >= ? AND term < ? LIMIT ?"
    return [row[0] for row in store.ask(query, begin, end, most)]


def _size(store: Store) -> int:
    """About how many parts a file has."""
    return int(store.ask("SELECT coalesce(max(key), 0) FROM part")[0][0])


def _longer(store: Store, beginning: str) -> list[str]:
    """Words of the index that begin so; past some, the beginning itself as the index has it."""
    found = _words(store, beginning, beginning + "\U0010ffff", _BEGINNINGS + 1)
    if len(found) > _BEGINNINGS:
        return [f'"{beginning}" *']
    return [f'"{word}"' for word in found]


def matches(wanted: Iterable[str], *texts: str | None) -> bool:
    """Whether the texts of a part have all words."""
    text = " ".join(text for text in texts if text).casefold()
    own = set(_WORD.findall(text))
    return all(_fits(word.casefold(), own, text) for word in wanted)


def _fits(word: str, own: set[str], text: str) -> bool:
    if not word.isalnum():
        return word in text
    if len(word) == 1 or word.isdigit():
        return word in own
    return any(each.startswith(word) for each in own)


def _nearest(catalogue: Catalogue, wanted: list[str]) -> list[str]:
    """The words, with the nearest that any part has in place of each that none has."""
    stores = [store for store in (catalogue.shop, catalogue.generic) if store is not None]
    pieces = [piece for word in wanted for piece in _PIECE.findall(word)]
    return [
        piece
        if piece.isdigit() or any(_has(store, piece) or _longer(store, piece) for store in stores)
        else _near(stores, piece)
        for piece in pieces
    ]


def _near(stores: list[Store], piece: str) -> str:
    """The word most like it; itself if none is. In a large file only words that begin alike."""
    from rapidfuzz import fuzz, process

    known: set[str] = set()
    for store in stores:
        begin = "" if _size(store) <= _VOCABULARY // 10 else piece[:1]
        words = _words(store, begin, begin + "\U0010ffff", _VOCABULARY)
        known.update(word for word in words if not word.isdigit())
    found = process.extractOne(piece, sorted(known), scorer=fuzz.ratio, score_cutoff=_LIKE)
    return found[0] if found else piece
