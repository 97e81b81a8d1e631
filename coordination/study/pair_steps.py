"""A compared pair in steps that can be checked: both currents, both times, both I²t."""

from __future__ import annotations

from typing import TYPE_CHECKING

from coordination.curves import Bound, Comparison, Opening
from coordination.model import Element
from coordination.study.combine import KIRCHHOFF
from coordination.study.deferred import deferred, renamed
from coordination.study.openings import ENERGY, time_step
from coordination.study.pairs import Pair
from coordination.trace import DEFINITION, Derived

if TYPE_CHECKING:
    from coordination.study.study import Study


def latest(study: Study, pair: Pair, at: Comparison) -> Derived | None:
    """Latest clearing [s] of the downstream device at one current; None: not bounded."""
    if at.cleared.time is None:
        return None

    def steps() -> Derived:
        current = _current(pair, at)
        return _through_energy(study, pair.down, at.cleared, current, "slowest", "down")

    return deferred("t_down", at.cleared.time, "s", steps)


def earliest(study: Study, pair: Pair, at: Comparison) -> Derived | None:
    """Earliest opening [s] of the upstream device at one current; None: not bounded, or never."""
    if at.opens.time is None or at.opens.basis == "rating":
        return None

    def steps() -> Derived:
        inputs = [_current(pair, at)]
        for value, symbol in ((pair.share, "s"), (pair.other_load, "I_other")):
            if isinstance(value, Derived):
                inputs.append(renamed(value, symbol))
        current = Derived(
            f"current through {pair.up.name} then", "I_up", at.upstream_current, "A",
            "s × I_down + I_other", tuple(inputs), KIRCHHOFF,
        )  # fmt: skip
        return _through_energy(study, pair.up, at.opens, current, "fastest", "up")

    return deferred("t_up", at.opens.time, "s", steps)


def _current(pair: Pair, at: Comparison) -> Derived:
    if isinstance(pair.high, Derived) and at.current == pair.high.value:
        return renamed(pair.high, "I_down")
    words = f"current through {pair.down.name} at which the two are closest"
    return Derived(words, "I_down", at.current, "A", source=DEFINITION)


def _through_energy(
    study: Study, element: Element, bound: Bound, current: Derived, side: str, which: str
) -> Derived:
    """The time by way of the I²t until then, so that both are shown."""
    opening = study.opening(element)
    assert isinstance(opening, Opening)
    time = time_step(element, opening, bound, current, side)
    until = "let through" if side == "slowest" else "until it may open"
    energy = Derived(
        f"I²t {until}, {element.name}", f"J_{which}", current.value**2 * time.value, "A²s",
        f"{current.symbol}² × {time.symbol}", (current, time),
        ENERGY if side == "slowest" else DEFINITION,
    )  # fmt: skip
    words = "latest clearing" if side == "slowest" else "earliest opening"
    return Derived(
        f"{words} of {element.name}", f"t_{which}", time.value, "s",
        f"J_{which} / {current.symbol}²", (energy, current), DEFINITION,
    )  # fmt: skip


def lacking(study: Study, pair: Pair, at: Comparison) -> tuple[str, ...]:
    """What a pair would need to be proven or broken at a current, a phrase each."""
    found: list[str] = []
    if at.cleared.basis not in ("point", "line") and not (
        at.cleared.basis == "physics" and _states(study, pair.down, "clearing_i2t")
    ):
        found.append(_curve(study, pair.down, "clearing"))
    if at.opens.basis not in ("point", "line", "rating") and not (
        at.opens.basis == "physics"
        and _states(study, pair.up, "melting_i2t")
        and at.opens.time is not None
        and at.opens.time <= 0.01
    ):
        found.append(_curve(study, pair.up, "melting"))
    for element in (pair.down, pair.up):
        opening = study.opening(element)
        if not found and isinstance(opening, Opening) and opening.standard_only():
            found.append(f"{_id(element)}: the part's own curve (a standard's gates overlap)")
    if not found:
        found.append(_curve_at(study, pair, at))
    return tuple(dict.fromkeys(found))


def _curve_at(study: Study, pair: Pair, at: Comparison) -> str:
    """The curve that ends below a current, although an I²t is stated that does not bind there."""
    opening = study.opening(pair.down)
    if isinstance(opening, Opening) and not opening.clears_by_own_data(at.cleared):
        return f"{_id(pair.down)}: maximum clearing curve at {at.current:.4g} A"
    return f"{_id(pair.up)}: minimum melting curve at {at.upstream_current:.4g} A"


def _states(study: Study, element: Element, field: str) -> bool:
    return getattr(study.opening(element), field, None) is not None


def _curve(study: Study, element: Element, which: str) -> str:
    stated = getattr(element.part, f"{which}_i2t", None)
    if stated is not None and not _states(study, element, f"{which}_i2t"):
        voltage = study.voltage_max(element)
        volts = f" at >= {voltage.value:g} V" if isinstance(voltage, Derived) else ""
        return f"{_id(element)}: interrupt_ratings{volts}: its {which} I²t counts only there"
    if element.kind == "breaker":
        what = "maximum trip curve" if which == "clearing" else "minimum trip curve"
    else:
        extent = "maximum clearing" if which == "clearing" else "minimum melting"
        what = f"{extent} curve or {which} I²t"
    return f"{_id(element)}: {what}"


def _id(element: Element) -> str:
    return element.name if element.part is None else element.part.id
