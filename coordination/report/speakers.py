"""Which packages bring words of their own: those that the packs of a run are made in."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from coordination.rules.pack import Pack


def packages_of(packs: Iterable[Pack]) -> tuple[str, ...]:
    """The packages, each once, in the order of the packs."""
    modules = (rule.judge.__module__ for pack in packs for rule in pack.rules)
    return tuple(dict.fromkeys(name.partition(".")[0] for name in modules))
