"""Finds what stands for a sentence that already has its names and figures in it.

A pattern is English with places: `{who}` is put back as it is, `{much:figure}` with the language's
decimal sign, `{what:words}` in the language's words. Of several patterns that fit, that is taken
which puts back least as it is; then the one with the most letters of its own.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from typing import NamedTuple

_PLACE = re.compile(r"\{(\w+)(?::(\w+))?\}")
#: What may stand in a place of each kind.
_POWER = r"(?:e[+-]\d+)?(?:\s?×\s?10[⁰¹²³⁴-⁹⁻]+)?"
_AMOUNT = rf"[≤≥<>~±+−-]?\s?\d[\d.]*{_POWER}(?:\s?[^\s\d.,;:()]{{1,7}}(?: DC)?)?"
_KINDS = {
    "": r".+?",
    "words": r".+?",
    "figure": rf"(?:\d+ × )?{_AMOUNT}(?: (?:/|…) {_AMOUNT})?",
}
_FIGURE = re.compile(_KINDS["figure"])


class Said(NamedTuple):
    """A sentence in the language; `kept`: letters of it that were put back as they are."""

    text: str
    kept: int = 0


class _Pattern(NamedTuple):
    """`kinds`: name of a place to its kind; `literal`: letters that the sentence must have."""

    fits: re.Pattern[str]
    words: str
    kinds: Mapping[str, str]
    weight: int
    literal: str


class Sentences:
    """The words of one language, by English.

    figure -- gives a figure as the language writes it
    """

    def __init__(self, phrases: Mapping[str, str], figure: Callable[[str], str]) -> None:
        self._figure = figure
        made = (_pattern(each, said) for each, said in phrases.items() if _PLACE.search(each))
        self._patterns = sorted(made, key=lambda each: -each.weight)
        self._known: dict[str, Said | None] = {each: Said(said) for each, said in phrases.items()}

    def known(self, english: str) -> Said | None:
        """What stands for English; None where there are no words for it."""
        if english not in self._known:
            # While its parts are looked up, it has no words: a pattern may lead back to it.
            self._known[english] = None
            self._known[english] = self._matched(english)
        return self._known[english]

    def _matched(self, english: str) -> Said | None:
        found = min(self._found(english), key=lambda said: said.kept, default=None)
        if found is None and _FIGURE.fullmatch(english):
            return Said(self._figure(english))
        return found

    def _found(self, english: str) -> Iterator[Said]:
        for pattern in self._patterns:
            fits = pattern.fits.fullmatch(english) if pattern.literal in english else None
            said = fits and self._put_in(pattern, fits.groupdict())
            if said:
                yield said

    def _put_in(self, pattern: _Pattern, found: Mapping[str, str]) -> Said | None:
        """The pattern with its places filled; None where a part of it has no words."""
        put_in: dict[str, str] = {}
        kept = 0
        for name, text in found.items():
            kind = pattern.kinds[name]
            said = self.known(text) if kind == "words" else self._as_it_is(kind, text)
            if said is None:
                return None
            put_in[name] = said.text
            kept += said.kept
        return Said(pattern.words.format(**put_in), kept)

    def _as_it_is(self, kind: str, text: str) -> Said:
        return Said(self._figure(text)) if kind == "figure" else Said(text, len(text))


def _pattern(english: str, said: str) -> _Pattern:
    pieces: list[str] = []
    kinds: dict[str, str] = {}
    literals: list[str] = []
    end = 0
    for place in _PLACE.finditer(english):
        literals.append(english[end : place.start()])
        kinds[place[1]] = place[2] or ""
        pieces += [re.escape(literals[-1]), f"(?P<{place[1]}>{_KINDS[kinds[place[1]]]})"]
        end = place.end()
    literals.append(english[end:])
    pieces.append(re.escape(literals[-1]))
    fits = re.compile("".join(pieces), re.DOTALL)
    return _Pattern(fits, said, kinds, sum(map(len, literals)), max(literals, key=len))
