"""What the user may have meant by a word that is not known."""

from __future__ import annotations

from collections.abc import Iterable


def nearest(word: str, known: Iterable[str]) -> str:
    """The known word most like `word`; empty if none is near enough to suggest."""
    from rapidfuzz import fuzz, process

    plain = {name.casefold(): name for name in known}
    found = process.extractOne(
        word[:100].casefold(), list(plain), scorer=fuzz.ratio, score_cutoff=70
    )
    return plain[found[0]] if found else ""


def hint_of(word: str, known: Iterable[str]) -> str:
    """ "did you mean ...?" for a word that is not known; empty if nothing is near."""
    near = nearest(word, known)
    return f"did you mean {near!r}?" if near else ""
