"""Answers kept, for what rules ask about one system and its few studies many times in turn."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, TypeVar

_T = TypeVar("_T")

MOST_KEPT = 100
#: With each what it is about, or another one could come to have its id.
_kept: dict[tuple[Any, int], tuple[Any, Any]] = {}


def once(make: Callable[[Any], _T], about: Any) -> _T:
    """What `make` makes of a system or a study, kept.

    make -- a function of the module's own, not one made anew at each call
    """
    key = (make, id(about))
    kept = _kept.get(key)
    if kept is None:
        if len(_kept) >= MOST_KEPT:
            _kept.clear()
        kept = _kept[key] = (about, make(about))
    answer: _T = kept[1]
    return answer


def forget() -> None:
    """Let go of everything kept: no more is asked about these systems."""
    _kept.clear()
