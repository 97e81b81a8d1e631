"""A derived value whose derivation is only worked out when somebody looks at it.

Most answers of a study are compared and never explained; the number is there at once, from the
solver, and the steps behind it are made on the first look.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any

from coordination.trace import Derived


class Deferred(Derived):
    """A `Derived` in every respect, except that all but its number waits for the first look.

    Made by `deferred`; calling the class, as `dataclasses.replace` does, gives a plain `Derived`.
    """

    __slots__ = ("_made", "_make", "_stated")
    _made: Derived
    _make: Callable[[], Derived]
    _stated: bool

    if not TYPE_CHECKING:

        def __new__(cls, *values: Any, **named: Any) -> Derived:
            return Derived(*values, **named)

        quantity = property(lambda self: self.whole().quantity)
        formula = property(lambda self: self.whole().formula)
        inputs = property(lambda self: self.whole().inputs)
        source = property(lambda self: self.whole().source)
        written = property(lambda self: self.whole().written if self._stated else "")

    def renamed(self, symbol: str) -> Derived:
        """The same under another symbol; its derivation still waits for the first look."""
        return renamed(self, symbol)

    def whole(self) -> Derived:
        """The derivation itself, as a plain `Derived`; only the number is not taken from it."""
        try:
            made: Derived = self._made
        except AttributeError:
            made = renamed(self._make(), self.symbol, value=self.value)
            object.__setattr__(self, "_made", made)
        return made

    def __eq__(self, other: object) -> bool:
        return self is other or self.whole() == other

    def __hash__(self) -> int:
        return hash(self.whole())

    def __repr__(self) -> str:
        return repr(self.whole())


def deferred(
    symbol: str, value: float, unit: str, make: Callable[[], Derived], stated: bool = False
) -> Derived:
    """A value known now, whose derivation `make` gives when it is asked for.

    stated -- whether it may be a figure that the user stated, to be shown as it was written;
              anything else is shown without a look at its derivation
    """
    item: Derived = object.__new__(Deferred)
    put = object.__setattr__
    put(item, "symbol", symbol)
    put(item, "value", value)
    put(item, "unit", unit)
    put(item, "_make", make)
    put(item, "_stated", stated)
    return item


def renamed(
    item: Derived, symbol: str, quantity: str | None = None, value: float | None = None
) -> Derived:
    """The same derivation under another symbol, and if given with other words and number."""
    if isinstance(item, Deferred):
        return deferred(
            symbol,
            item.value if value is None else value,
            item.unit,
            lambda: renamed(item.whole(), symbol, quantity, value),
            item._stated,
        )
    return Derived(
        item.quantity if quantity is None else quantity,
        symbol,
        item.value if value is None else value,
        item.unit,
        item.formula,
        item.inputs,
        item.source,
        item.written,
    )
