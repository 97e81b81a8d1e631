"""The uncertain inputs of a system: which figures may be others than those in the file."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from coordination.margins.bounds import SPANS
from coordination.margins.changing import Put
from coordination.model import System


class Input(NamedTuple):
    """One figure that is stated, and may be another.

    what      -- in words: "least resistance of house battery"
    datum     -- where it stands: "demo-bank-280: resistance.min"
    kind      -- of SPANS; dimension, unit -- as in catalogue.quantities
    now       -- its value [SI, °C]; written -- as it was written
    put       -- gives the system with another value of it
    other     -- the other end of its band and what changes that alone: moved along beyond it
    """

    what: str
    datum: str
    kind: str
    dimension: str
    unit: str
    now: float
    written: str
    line: int
    put: Put
    other: tuple[float, Put] | None = None

    @property
    def logarithmic(self) -> bool:
        """Whether it is searched by factors."""
        return not SPANS[self.kind].absolute

    @property
    def ends(self) -> tuple[float, float]:
        """Between which values [SI, °C] it is searched."""
        return SPANS[self.kind].around(self.now)


def inputs_of(system: System) -> tuple[Input, ...]:
    """Every uncertain input: batteries first, then supplies, loads, air, lengths, resistances."""
    from coordination.margins.fitted import battery_inputs, element_inputs, resistance_inputs
    from coordination.margins.listed import load_inputs, place_inputs, supply_inputs

    def found() -> Iterator[Input]:
        for each in (
            battery_inputs,
            supply_inputs,
            load_inputs,
            place_inputs,
            element_inputs,
            resistance_inputs,
        ):
            yield from each(system)

    return tuple(found())


def worth_searching(each: Input) -> bool:
    """Whether there is a range to search: nothing is a tenth or ten times of zero.

    A share of 0 % is a load that is off in a condition, not a figure that may be another.
    """
    low, high = each.ends
    return low < high and (each.kind != "share" or each.now > 0.0)


