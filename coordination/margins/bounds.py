"""How far each kind of input is searched: what can be in a small system, not what ought to be."""

from __future__ import annotations

from typing import Final, NamedTuple


class Span(NamedTuple):
    """How far a kind of input is searched.

    low, high -- factors of the present value, or absolute values [SI, °C] if `absolute`
    words     -- the same for people
    """

    low: float
    high: float
    words: str
    absolute: bool = False

    def around(self, now: float) -> tuple[float, float]:
        """Both ends [SI] for an input of this value, which they always contain."""
        if self.absolute:
            return min(self.low, now), max(self.high, now)
        return self.low * now, self.high * now


_TENTH: Final = Span(0.1, 10.0, "a tenth to ten times")
#: Kind of input -> how far it is searched; the kinds are those of `Input.kind`.
SPANS: Final = {
    "resistance": _TENTH,
    "length": _TENTH,
    "current": _TENTH,
    "power": _TENTH,
    "capacity": Span(0.5, 2.0, "half to twice"),
    "voltage": Span(0.75, 1.25, "75 % to 125 %"),
    "temperature": Span(-40.0, 90.0, "-40 °C to 90 °C", absolute=True),
    "efficiency": Span(0.3, 1.0, "30 % to 100 %", absolute=True),
    "share": Span(0.0, 1.0, "0 to 100 %", absolute=True),
}
