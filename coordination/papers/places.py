"""Which places a page has, so that every link on it leads somewhere.

A place is taken once, by the first that claims it; links to places that nobody took are undone.
"""

from __future__ import annotations

import re

_IDS = re.compile(r'<[^<>]*\sid="([^"]+)"')
_LINKS = re.compile(r'(<a\s[^<>]*?)\s*(?:xlink:)?href="#([^"]*)"')


class Places:
    """The places that were given out on one page."""

    def __init__(self) -> None:
        self._taken: set[str] = set()

    def claim(self, name: str) -> str:
        """The name, for the first who asks; nothing for all others."""
        if name in self._taken:
            return ""
        self._taken.add(name)
        return name

    def taken(self, name: str) -> bool:
        """Whether somebody claimed it."""
        return name in self._taken


def ids_in(markup: str) -> set[str]:
    """The places that markup of our own has."""
    return set(_IDS.findall(markup))


def without_dead_links(markup: str) -> str:
    """Our own markup with links to places that are not there turned into plain text."""
    there = ids_in(markup)
    return _LINKS.sub(lambda found: found[0] if found[2] in there else found[1], markup)
