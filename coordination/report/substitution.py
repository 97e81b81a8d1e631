"""Puts numbers into formulas: "E / R" becomes "27.2 V / 3.20 mΩ".

Symbols are replaced as whole tokens, all at once, so that one symbol may be the beginning of
another and a number put in is never taken for a symbol. What the formula means is not known here.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from coordination.languages.language import ENGLISH
from coordination.report.wording import clean, number

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from coordination.languages.language import Language
    from coordination.trace import Derived

#: Signs that raise the operand before them: the operand then needs brackets.
_RAISED = "⁰¹²³⁴⁵⁶⁷⁸⁹"
_POWERS = (*_RAISED, "⁺", "⁻", "**", "^")
#: Raised digits are word characters to Python, but "S²" is the symbol S.
_WORD = r"[^\W⁰¹²³⁴-⁹]"
_TOKEN = re.compile(rf"(?<!{_WORD})(?!\d){_WORD}+")


def working(step: Derived, words: Language = ENGLISH) -> str:
    """The step's formula and the same with numbers: "E / R = 27.2 V / 3.20 mΩ"; "" if given."""
    if not step.formula:
        return ""
    numbers, formula = with_numbers(step), words.formula(clean(step.formula))
    return formula if numbers == step.formula else f"{formula} = {words.formula(numbers)}"


def with_numbers(step: Derived) -> str:
    """The step's formula with the values of its inputs in place of their symbols."""
    named = [item for item in step.inputs if item.symbol]
    if not step.formula or not named:
        return clean(step.formula)
    values = _Values(named, step.formula)
    return "".join(_pieces(step.formula, values))


class _Values:
    """What to put in for each symbol; inputs that share a symbol are used up in their order."""

    def __init__(self, inputs: Sequence[Derived], formula: str) -> None:
        self._by_symbol: dict[str, list[Derived]] = {}
        for item in inputs:
            self._by_symbol.setdefault(item.symbol, []).append(item)
        self.found = list(_pattern_for(self._by_symbol).finditer(formula))
        names = [match.group() for match in self.found]
        for symbol, items in list(self._by_symbol.items()):
            # Two inputs, one symbol, used some other number of times: nobody knows which is which.
            if len(items) > 1 and len(items) != names.count(symbol):
                del self._by_symbol[symbol]

    def next(self, symbol: str) -> Derived | None:
        items = self._by_symbol.get(symbol)
        if not items:
            return None
        return items.pop(0) if len(items) > 1 else items[0]


def _pattern_for(symbols: Iterable[str]) -> re.Pattern[str]:
    """One pattern serves all plain symbols; one a step would take most of a report's time."""
    if all(map(_TOKEN.fullmatch, symbols)):
        return _TOKEN
    longest_first = "|".join(map(re.escape, sorted(symbols, key=len, reverse=True)))
    return re.compile(rf"(?<!{_WORD})(?:{longest_first})(?!{_WORD})")


def _pieces(formula: str, values: _Values) -> Iterator[str]:
    end, after_operand = 0, False
    for match in values.found:
        between, end = formula[end : match.start()], match.end()
        item = values.next(match.group())
        yield _joint(between, after_operand and item is not None)
        yield _operand(match.group(), item, formula, match)
        after_operand = item is not None
    yield clean(formula[end:])


def _joint(between: str, product: bool) -> str:
    """What stands between two operands; a bare blank there means a product ("I² t")."""
    power = between.rstrip()
    if product and power != between and not power.strip(_RAISED):
        return clean(f"{power} × ")
    return clean(between)


def _operand(symbol: str, item: Derived | None, formula: str, match: re.Match[str]) -> str:
    if item is None:
        return clean(symbol)
    text = number(item.value, item.unit, item.written)
    raised = formula[match.end() :].lstrip().startswith(_POWERS)
    signed = text.startswith(("-", "−")) and match.start() > 0
    return f"({text})" if signed or (raised and not text.isdecimal()) else text
