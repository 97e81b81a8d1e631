"""Colours for a terminal; a word always says the same, so that nothing rests on colour alone."""

from __future__ import annotations

from collections.abc import Callable, Mapping

Paint = Callable[[str, str], str]

_CODES = {
    "fail": "1;31",
    "unproven": "1;33",
    "waived": "35",
    "note": "36",
    "pass": "32",
    "heading": "1",
    "faint": "2",
}


def plain(style: str, text: str) -> str:  # noqa: ARG001
    """The text as it is."""
    return text


def coloured(style: str, text: str) -> str:
    """The text in the colour of a verdict, or as a heading."""
    return f"\x1b[{_CODES[style]}m{text}\x1b[0m"


def paint_for(terminal: bool, environment: Mapping[str, str]) -> Paint:
    """Colours only on a terminal that wants them (NO_COLOR, TERM=dumb)."""
    wanted = terminal and not environment.get("NO_COLOR") and environment.get("TERM") != "dumb"
    return coloured if wanted else plain
