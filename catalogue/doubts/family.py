"""Which published family a fuse or breaker says it is of, by its words."""

from __future__ import annotations

import re
from functools import cache
from typing import Final

from catalogue.generic.tables import Row, rows
from catalogue.parts import Part

_CLASS: Final = re.compile(r"(?:class[ -]*)?(t|j|rk1|rk5)", re.IGNORECASE)
_TYPE: Final = re.compile(r"\btype[ -]*([CEFP])\b|\bblade[ -]([cefp])\b|\b(SF ?30|SF ?51)\b", re.I)
_BAND: Final = re.compile(r"\b(?:band|curve|type|characteristic)[ -]*([BCD])\b", re.IGNORECASE)
_GG: Final = ("gg", "gl", "gl/gg", "gg/gl")


@cache
def table(name: str) -> tuple[Row, ...]:
    """A published table, read once."""
    return tuple(rows(name))


def ul_class(part: Part) -> str:
    """The UL 248 class of a fuse: "T"; empty if its family names none."""
    match = _CLASS.fullmatch(_family(part))
    return match[1].upper() if match and part.kind == "fuse" else ""


def is_gg(part: Part) -> bool:
    """Whether it is a general-purpose fuse of IEC 60269."""
    return part.kind == "fuse" and _family(part).casefold() in _GG


def road_types(part: Part) -> tuple[str, ...]:
    """The types of ISO 8820 that a blade or strip fuse may be of; the one it names, or all."""
    family = _family(part).casefold()
    if part.kind != "fuse" or family not in ("blade", "strip"):
        return ()
    match = _TYPE.search(f"{part.id} {part.description or ''}")
    if match:
        return (next(each for each in match.groups() if each).upper().replace(" ", ""),)
    return ("C", "E", "F", "P") if family == "blade" else ("SF30", "SF51")


def trip_band(part: Part) -> str:
    """The trip band of a breaker: "C"; empty if its words name none."""
    if part.kind != "breaker":
        return ""
    match = _BAND.search(f"{_family(part)} {part.description or ''}")
    return match[1].upper() if match else ""


def _family(part: Part) -> str:
    return (getattr(part, "family", None) or "").strip()
