"""What the law lets the device of a conductor be rated at, in both readings of its words.

183.455(c) names the Table 5 value for the size and leaves the notes out: the literal reading. With
the factors of engine space and bundle inside it, it is the corrected one. Both are worked out.
"""

from __future__ import annotations

from dataclasses import dataclass

from coordination.rules import Derived, Installation, Source, Unknown, Value, derive, given
from fusewright_us_small_craft import table5, tables
from fusewright_us_small_craft.scope import law

_SHARE = given("share allowed", "p", 1.5, "", law("183.455(c)"), "150 %")
STANDARD = Source("NFPA 70:2023", "240.6(A)", read=False)


@dataclass(frozen=True, slots=True)
class Limits:
    """Largest ratings [A] in both readings.

    plain -- the corrected limit without any list of standard ratings
    hard  -- what no reading allows to exceed, by figures that were read
    """

    literal: Value
    corrected: Value
    plain: Value
    hard: Value


def below_50_volts(leg: Installation) -> Limits:
    """183.455(c)(1): at most 150 % of the conductor's value, no next size up."""
    literal = _times(table5.literal(leg), "limit, notes left out", "L")
    corrected = _times(_corrected(leg), "limit, with the engine space", "L_e")
    return Limits(literal, corrected, corrected, literal)


def from_50_volts(leg: Installation) -> Limits:
    """183.455(c)(2): 100 %, or the next larger standard rating up to 150 % of what is allowed."""
    allowed, bare = table5.ampacity(leg), table5.literal(leg)
    ceiling = _times(allowed, "150 % of the allowed current", "L_150")
    read = bare if table5.from_memory(allowed) else allowed
    return Limits(
        _next_size(bare, ceiling, "limit, notes left out", "L"),
        _next_size(allowed, ceiling, "limit, with the notes", "L_e"),
        allowed,
        _times(read, "150 % of the current allowed", "L_h"),
    )


def next_standard(current: float) -> float:
    """The smallest standard rating [A] that is no smaller; infinite above the list."""
    return next((rating for rating in tables.standard_ratings() if rating >= current), float("inf"))


def _corrected(leg: Installation) -> Value:
    return derive(
        lambda k, i: k * i, "Table 5 with the engine space", "I_e", "A", "k_e × I_5",
        table5.place_factor(leg), table5.literal(leg),
    )  # fmt: skip


def _times(value: Value, quantity: str, symbol: str) -> Value:
    if isinstance(value, Unknown):
        return value
    formula = f"p × {value.symbol}"
    return derive(lambda p, i: p * i, quantity, symbol, "A", formula, _SHARE, value)


def _next_size(value: Value, ceiling: Value, quantity: str, symbol: str) -> Value:
    """max(I, the smaller of the next standard rating and the ceiling)."""
    if isinstance(value, Unknown) or isinstance(ceiling, Unknown):
        return derive(float, quantity, symbol, "A", "", value, ceiling)
    above = given("next standard rating", "I_s", next_standard(value.value), "A", STANDARD)
    formula = f"max({value.symbol}, I_s if I_s ≤ {ceiling.symbol})"
    made = derive(_larger, quantity, symbol, "A", formula, value, above, ceiling)
    assert isinstance(made, Derived)
    return made


def _larger(current: float, standard: float, ceiling: float) -> float:
    return max(current, standard if standard <= ceiling * (1 + 1e-9) else current)
