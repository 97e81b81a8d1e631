"""When a device has opened: its band where it stands, real clearing times, what it lets through.

A part's time-current band comes from `curves`; here it meets the place of the device: the system's
voltage, the fault current through it and the rise of that current.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from catalogue.frozen import dataclass
from catalogue.parts import Breaker, Channel, Fuse
from coordination.curves import Bound, Boundary, Opening, opening_from
from coordination.errors import OutOfRange
from coordination.model import Element
from coordination.physics.rise import time_to_heat
from coordination.trace import Derived, Source, Unknown, Value

if TYPE_CHECKING:
    from coordination.study.study import Study

RISE = Source("definition", "∫ i² dt of the rising current reaches the I²t of the steady one")
ADIABATIC = Source("IEC 60269-1:2006", "pre-arcing I²t, adiabatic", read=False)
ENERGY = Source("definition", "I²t until it has cleared")
#: Air temperature [°C] up to which a rating without derating figures is taken as it stands.
TEST_AMBIENT = 20.0
#: Time constants after which a rising current has reached `RISEN` of its final value, and stays.
RISEN_TIME, RISEN = 3.0, 0.95


@dataclass(frozen=True, slots=True)
class Clearing:
    """A device and one current through it.

    steady     -- latest clearing [s] of a current that is there at once, from its curve
    time       -- latest clearing [s] with the real rise of the current
    let_through -- I²t until then [A²s]
    basis      -- what `steady` rests on: "point", "line", "gate", "physics", "not bounded"
    own        -- it is the part's own data, not only a bound that a standard or physics sets
    """

    steady: Value
    time: Value
    let_through: Value
    basis: str
    own: bool


def opening_of(study: Study, element: Element) -> Opening | Unknown:
    """What the device in its place promises about opening.

    Its clearing I²t counts only where the part states an interrupt rating at the system's highest
    voltage: figures of standards are for AC, and arcs at more voltage let more through. In a hot
    place it carries less and opens earlier: its rating and the currents of its fastest boundary
    are multiplied by the derating factor. Its slowest boundary stays: heat only helps to clear.
    """
    part = element.part
    if isinstance(part, Channel):
        missing = f"{part.id}: when its electronics switch off, which no field states"
        return Unknown(f"opening of {element.name}", (missing,))
    if not isinstance(part, Fuse | Breaker):
        what = "part" if part is None else part.id
        return Unknown(f"opening of {element.name}", (f"{what}: curve",))
    covered = part.clearing_i2t is not None and _covered(study, element, part)
    ambient = study.ambient(element).value
    found = study._of_drawing(
        "opening", f"{id(part)} {covered} {ambient}", lambda: _of_part(part, covered, ambient)
    )
    if isinstance(found, Unknown):
        return Unknown(f"opening of {element.name}", found.missing)
    return found.of(element.name)


def _of_part(part: Fuse | Breaker, covered: bool, ambient: float) -> Opening | Unknown:
    """A part in air of that temperature [°C]; the same for all the devices made of it."""
    found = opening_from(part, let_through=covered)
    if isinstance(found, Unknown):
        return found
    factor = derating(part, ambient)
    carries = None if factor is None else part.rated_current and part.rated_current * factor
    return Opening(
        found.name, _warmed(found.fastest, factor), found.slowest, found.melting_i2t,
        found.clearing_i2t, carries,
    )  # fmt: skip


def derating(part: Fuse | Breaker, ambient: float) -> float | None:
    """Share of the rating that is left [1] in air of a temperature [°C]; None: not stated.

    Of two listed temperatures the lower factor, never one between; without rows the rating holds
    up to 20 °C (test conditions of UL 248-1 and IEC 60269-1, from memory).
    """
    if not part.derating:
        return 1.0 if ambient <= TEST_AMBIENT else None
    rows = sorted(part.derating)
    warmer = [share for degrees, share in rows if degrees >= ambient]
    colder = [share for degrees, share in rows if degrees <= ambient]
    if not warmer:
        return None
    if any(degrees == ambient for degrees, _ in rows):
        return min(share for degrees, share in rows if degrees == ambient)
    return min([warmer[0], *colder[-1:]])


def _warmed(side: Boundary, factor: float | None) -> Boundary:
    """A fastest boundary in a hot place; never later than the part's."""
    if factor is None or factor >= 1.0:
        return side
    points = tuple((current * factor, time) for current, time in side.points)
    return Boundary(points, side.fastest, side.gates, side.melts)


def _covered(study: Study, element: Element, part: Fuse | Breaker) -> bool:
    voltage = study.voltage_max(element)
    return isinstance(voltage, Derived) and any(
        voltage.value <= row.voltage * (1 + 1e-9) for row in part.interrupt_ratings
    )


def time_step(
    element: Element, opening: Opening, bound: Bound, current: Derived, side: str
) -> Derived:
    """A promised time [s] at a current, with what it rests on; its time must be known and finite.

    side -- "slowest": the latest clearing; "fastest": the earliest opening
    """
    assert bound.time is not None
    words, symbol = ("latest clearing", "t") if side == "slowest" else ("earliest opening", "t_up")
    quantity = f"{words} of {element.name}"
    boundary = opening.slowest if side == "slowest" else opening.fastest
    if bound.basis != "physics":
        source = Source("part data", f"{_part(element)}: {_field(element, side)}")
        words = _BASIS["gates" if boundary.gates and bound.basis == "point" else bound.basis]
        return Derived(
            f"{quantity} ({words})", symbol, bound.time, "s", f"t({current.symbol})", (current,),
            source,
        )  # fmt: skip
    energy = opening.clearing_i2t if side == "slowest" else opening.melting_i2t
    if energy is None or abs(bound.time - energy / current.value**2) > 1e-9 * bound.time:
        point, time = boundary.points[-1]
        source = Source("part data", f"{_part(element)}: {_field(element, side)}")
        fixed = Derived("I²t of the last point of its curve", "J", point**2 * time, "A²s",
                        source=source)  # fmt: skip
    else:
        fixed = _energy_step(element, side, energy)
    return Derived(
        f"{quantity} (constant I²t, physics)", symbol, bound.time, "s",
        f"J / {current.symbol}²", (fixed, current), ADIABATIC,
    )  # fmt: skip


_BASIS = {
    "point": "a point of the part's own curve",
    "gates": "a standard's gate",
    "line": "between two points of the part's own curve, log-log",
    "gate": "no more than its points say: more current never takes longer",
}


def _energy_step(element: Element, side: str, energy: float) -> Derived:
    """A stated I²t [A²s]; a clearing one counts only within the part's DC marking."""
    name = "clearing_i2t" if side == "slowest" else "melting_i2t"
    words = f"{name.partition('_')[0]} I²t of {element.name}"
    if side == "slowest":
        words += ", counted because the part states an interrupt rating at this DC voltage"
    written = "" if element.part is None else element.part.written.get(name, "")
    source = Source("part data", f"{_part(element)}: {name}")
    return Derived(words, "J", energy, "A²s", source=source, written=written)


def _field(element: Element, side: str) -> str:
    if element.kind == "breaker":
        return "curve.max_trip" if side == "slowest" else "curve.min_trip"
    if side == "slowest":
        return "curve.max_clear"
    part = element.part
    drawn = isinstance(part, Fuse) and part.curve is not None and not part.curve.fastest
    return "curve.average_melt" if drawn else "curve.min_melt"


def clearing(
    study: Study, element: Element, current: Value, time_constant: Value | None = None
) -> Clearing:
    """How long a current [A] through a device lasts at most, and what it lets through.

    time_constant -- L/R [s] of the fault's loop; None: a current that is there at once
    """
    opening = study.opening(element)
    if isinstance(opening, Unknown):
        return _unknown(element, opening.missing)
    if isinstance(current, Unknown):
        return _unknown(element, current.missing)
    if current.value <= 0:
        return _unknown(element, (f"a current through {element.name}",))
    bound = opening.cleared_by(current.value)
    if bound.time is None:
        phrase = f"{element.name}: clearing time at {current.value:.4g} A (its curve ends above)"
        if not opening.slowest.points:
            phrase = f"{_part(element)}: maximum {_opens(element)} curve"
        return _unknown(element, (phrase,))
    steady = time_step(element, opening, bound, current, "slowest")
    mechanism = not opening.slowest.melts
    return Clearing(
        steady,
        _real(element, steady, current, time_constant, opening if mechanism else None),
        _energy(element, steady, current, time_constant, opening if mechanism else None),
        bound.basis,
        opening.clears_by_own_data(bound),
    )


def _part(element: Element) -> str:
    return element.name if element.part is None else element.part.id


def _opens(element: Element) -> str:
    return "trip" if element.kind == "breaker" else "clearing"


def _unknown(element: Element, missing: tuple[str, ...]) -> Clearing:
    time = Unknown(f"latest clearing of {element.name}", missing)
    energy = Unknown(f"I²t let through by {element.name}", missing)
    return Clearing(time, time, energy, "not bounded", False)


def _real(
    element: Element, steady: Derived, current: Derived, tau: Value | None, trips: Opening | None
) -> Value:
    """Clearing time [s] with the rise: melting waits for energy, a mechanism for its current."""
    if tau is None or (isinstance(tau, Derived) and tau.value == 0.0):
        return steady
    quantity = f"latest clearing of {element.name}, with the rise of the current"
    if isinstance(tau, Unknown):
        return Unknown(quantity, tau.missing)
    if trips is not None:
        return _after_rise(quantity, current, tau, trips)
    return _reckon(
        lambda amps, seconds, constant: time_to_heat(amps, constant, amps * amps * seconds),
        Derived(quantity, "t_real", 0.0, "s", "t from ∫ i² dt = I² t, i = I (1 − e^(−t / τ))",
                (current, steady, tau), RISE),
    )  # fmt: skip


def _after_rise(quantity: str, current: Derived, tau: Derived, trips: Opening) -> Value:
    late = trips.cleared_by(RISEN * current.value)
    if late.time is None:
        return Unknown(quantity, (f"{trips.name}: trip time at {RISEN * current.value:.4g} A",))
    risen = Derived(
        f"its latest trip at {RISEN:g} of the current", "t_r", late.time, "s",
        f"t({RISEN:g} I)", (current,),
    )  # fmt: skip
    value = RISEN_TIME * tau.value + late.time
    source = Source("definition", f"after {RISEN_TIME:g} τ the current stays above {RISEN:g} I")
    return Derived(quantity, "t_real", value, "s", f"{RISEN_TIME:g} τ + t_r", (tau, risen), source)


def _energy(
    element: Element, steady: Derived, current: Derived, tau: Value | None, trips: Opening | None
) -> Value:
    """I²t [A²s] until cleared: of melting the same however the current rises."""
    quantity = f"I²t let through by {element.name}"
    time: Value = steady if trips is None else _real(element, steady, current, tau, trips)
    if isinstance(time, Unknown):
        return Unknown(quantity, time.missing)
    value = current.value**2 * time.value
    formula = f"{current.symbol}² {time.symbol}"
    return Derived(quantity, "J", value, "A²s", formula, (current, time), ENERGY)


def _reckon(function: Callable[..., float], shape: Derived) -> Value:
    """The shape with its value worked out from its inputs."""
    try:
        value = function(*(item.value for item in shape.inputs))
    except OutOfRange as error:
        return Unknown(shape.quantity, (f"{shape.quantity}: {error}",))
    return Derived(
        shape.quantity, shape.symbol, value, shape.unit, shape.formula, shape.inputs, shape.source
    )


def let_through(study: Study, element: Element) -> Value:
    """I²t [A²s] that a device lets through at the largest fault current through it."""
    return clearing(study, element, study.duty(element), slower_end(study, element)).let_through


def slower_end(study: Study, element: Element) -> Value:
    """The longer time constant [s] of a fault at either terminal of an element."""
    ends = [study.time_constant(point) for point in (element.start, element.end)]
    known = [value for value in ends if isinstance(value, Derived)]
    if len(known) < len(ends):
        return next(value for value in ends if isinstance(value, Unknown))
    return max(known, key=lambda value: value.value)
