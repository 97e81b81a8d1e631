"""What the strip of a sheet explains."""

from __future__ import annotations

from typing import NamedTuple

from coordination.languages.language import ENGLISH, Language


class Signs(NamedTuple):
    """The symbols that need to be explained, and in which language."""

    shapes: frozenset[str]
    words: Language = ENGLISH
