"""How a number came about: values with the equation, the inputs and the source behind each.

Knows nothing of circuits, files or wording; the report stage turns these records into text.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from catalogue.frozen import dataclass
from coordination.errors import OutOfRange


@dataclass(frozen=True, slots=True)
class Source:
    """Where a formula, a figure or a requirement comes from.

    document -- standard with edition, "common practice", "part data", "system file", "definition"
    clause   -- clause, table, page or line in it
    read     -- whether the text was read; a published figure that was not is shown "from memory"
    """

    document: str
    clause: str = ""
    read: bool = True


COMMON_PRACTICE = Source("common practice")
DEFINITION = Source("definition")


@dataclass(frozen=True, slots=True)
class Derived:
    """One number with everything that led to it; the tree of `inputs` is the whole derivation.

    quantity -- the field's standard term, in words: "fault current"
    symbol   -- the sign that stands for it in formulas of the steps above it: "I"
    value    -- in the SI unit named by `unit` (temperatures in degC)
    unit     -- SI unit as text: "A", "V", "Ω", "m", "m²", "s", "A²s", "°C", "" for a pure number
    formula  -- in symbols of the inputs: "E / R"; empty for a given value
    written  -- how the user or the part's document wrote it, if it is a given value
    """

    quantity: str
    symbol: str
    value: float
    unit: str
    formula: str = ""
    inputs: tuple[Derived, ...] = ()
    source: Source | None = None
    written: str = ""

    def renamed(self, symbol: str) -> Derived:
        """The same derivation under the symbol that a formula uses for it."""
        return Derived(
            self.quantity, symbol, self.value, self.unit,
            self.formula, self.inputs, self.source, self.written,
        )  # fmt: skip

    def steps(self) -> Iterator[Derived]:
        """Every node of the derivation, inputs before what they lead to, each once."""
        seen: set[int] = set()
        stack: list[tuple[Derived, bool]] = [(self, False)]
        while stack:
            node, ready = stack.pop()
            if ready:
                yield node
            elif id(node) not in seen:
                seen.add(id(node))
                stack.append((node, True))
                stack.extend((child, False) for child in reversed(node.inputs))


@dataclass(frozen=True, slots=True)
class Unknown:
    """A number that cannot be had, and what would have to be known: it never becomes a pass.

    missing -- one phrase each, naming thing and field: "fuse-t-300: interrupt_ratings at >= 28.8 V"
    known   -- what could be derived all the same, for the reasoning
    """

    quantity: str
    missing: tuple[str, ...]
    known: tuple[Derived, ...] = ()


Value = Derived | Unknown


def given(
    quantity: str, symbol: str, value: float, unit: str, source: Source, written: str = ""
) -> Derived:
    """A value that somebody stated: a part's rating, a length in the file, a constant."""
    return Derived(quantity, symbol, value, unit, source=source, written=written)


def derive(
    function: Callable[..., float],
    quantity: str,
    symbol: str,
    unit: str,
    formula: str,
    *inputs: Value,
    source: Source | None = None,
) -> Value:
    """Apply `function` to the inputs' values; one unknown input makes the result unknown.

    Raises whatever `function` raises; a caller with inputs from outside guards their range.
    """
    known = [item for item in inputs if not isinstance(item, Unknown)]
    if len(known) < len(inputs):
        return Unknown(quantity, unknowns(inputs), tuple(known))
    value = function(*[item.value for item in known])
    return Derived(quantity, symbol, value, unit, formula, tuple(known), source)


def reckon(
    function: Callable[..., float],
    quantity: str,
    symbol: str,
    unit: str,
    formula: str,
    *inputs: Value,
    source: Source | None = None,
) -> Value:
    """Like `derive`, with a figure out of the equation's range made Unknown."""
    try:
        return derive(function, quantity, symbol, unit, formula, *inputs, source=source)
    except OutOfRange as error:
        return Unknown(quantity, (f"{quantity}: {error}",))


def unknowns(items: Iterable[Value]) -> tuple[str, ...]:
    """Everything missing among several values, each once, in order."""
    found: dict[str, None] = {}
    for item in items:
        if isinstance(item, Unknown):
            found.update(dict.fromkeys(item.missing))
    return tuple(found)
