"""The AC output of an inverter: rated and surge current, its breaker and its conductors."""

from __future__ import annotations

from typing import NamedTuple

from coordination.model import Equipment
from coordination.network.stated import of_file
from coordination.physics import shore, sources
from coordination.trace import Unknown, Value, reckon


class Output(NamedTuple):
    """Currents [A] on the output of an inverter.

    rated, surge -- what it gives for hours and for a moment; breaker, conductor -- their ratings
    holds        -- what the breaker carries for the time of the surge
    """

    rated: Value
    surge: Value | None
    breaker: Value
    conductor: Value
    holds: Value


def output(inverter: Equipment) -> Output | None:
    """The output of an inverter; None of equipment that states none."""
    side = inverter.output
    if side is None:
        return None
    voltage = of_file(side, "voltage", side.voltage, "output voltage", "U_ac", "V")
    factor = of_file(side, "power_factor", side.power_factor, "power factor", "pf", "")
    power = of_file(inverter, "power", inverter.power, f"power of {inverter.name}", "P", "W")
    words = f"output current of {inverter.name}"
    rated = reckon(
        shore.ac_current, words, "I", "A", "P / (U_ac × pf)", power, voltage, factor,
        source=sources.CONSERVATION,
    )  # fmt: skip
    surge = None
    if side.surge_power is not None:
        peak = of_file(side, "surge.power", side.surge_power, "surge power", "P_s", "W")
        surge = reckon(
            shore.ac_current, f"{words}, surge", "I", "A", "P_s / (U_ac × pf)", peak, voltage,
            factor, source=sources.CONSERVATION,
        )  # fmt: skip
    breaker = of_file(side, "breaker", side.breaker, f"breaker of {inverter.name}", "I_n", "A")
    conductor = of_file(
        side, "conductor", side.conductor, f"conductors of {inverter.name}", "I_z", "A"
    )
    return Output(rated, surge, breaker, conductor, _holds(inverter, breaker, surge))


def _holds(inverter: Equipment, breaker: Value, surge: Value | None) -> Value:
    """What the breaker carries as long as the surge lasts: its rating, or a stated current."""
    side = inverter.output
    assert side is not None
    if isinstance(breaker, Unknown) or surge is None or isinstance(surge, Unknown):
        return breaker
    held, time = side.breaker_holds, side.surge_time
    if surge.value <= breaker.value:
        return breaker
    words = f"current that the breaker of {inverter.name} carries for the surge"
    if held is None or time is None or held.time < time:
        return Unknown(words, (f"{inverter.name}: output: breaker_holds for {time or 0:g} s",))
    return of_file(side, "breaker_holds.current", held.current, words, "I_h", "A")
