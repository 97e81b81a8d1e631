"""The ampacity bases this pack brings, one a reference method."""

from __future__ import annotations

from functools import partial

from coordination.rules import AmpacityBasis
from fusewright_iec_low_voltage.ampacity import METHODS, ampacity
from fusewright_iec_low_voltage.parts_of_standard import wiring

PREFIX = "iec60364-5-52-method-"

_IN_WORDS = {
    "A1": "single cores in conduit in an insulating wall",
    "A2": "a multicore cable in conduit in an insulating wall",
    "B1": "single cores in conduit on a wall",
    "B2": "a multicore cable in conduit on a wall",
    "C": "cables clipped to a surface",
    "E": "a multicore cable in free air",
    "F": "single cores touching in free air",
}

BASES: tuple[AmpacityBasis, ...] = tuple(
    AmpacityBasis(
        name=f"{PREFIX}{method.lower()}",
        title=f"method {method}: {_IN_WORDS[method]}, with ambient and grouping factors",
        source=wiring("Annex B, Tables B.52.2, B.52.3, B.52.10, B.52.12, B.52.14, B.52.17"),
        ampacity=partial(ampacity, method=method),
    )
    for method in METHODS
)


def method_of(basis: str) -> str | None:
    """The method of one of these bases by its name; None for any other."""
    method = basis.removeprefix(PREFIX).upper()
    return method if basis.startswith(PREFIX) and method in METHODS else None
