"""How warm a conductor gets in an overload that lasts longer than a short circuit.

One body with the heat capacity of its copper alone, so that it warms no slower than a real cable;
the adiabatic limit of a short circuit is `adiabatic`'s.
"""

from __future__ import annotations

from math import exp

from coordination.physics.adiabatic import COPPER_HEAT_CAPACITY
from coordination.physics.conductors import COPPER_RESISTIVITY, resistance_at_temperature
from coordination.physics.guards import (
    require_not_negative,
    require_positive,
    require_within,
)


def warming_time(
    area: float, ampacity: float, ambient: float, insulation_temperature: float
) -> float:
    """Time constant with which a copper conductor warms, at least.

    Qc S² (T_r - T_a) / (rho_r I_z²), Qc = 3.45 J/(K cm³), rho_r at T_r

    area                   -- conductor cross-section S [m**2]
    ampacity               -- current I_z that warms it to T_r in T_a [A]
    ambient                -- air temperature T_a [degC]
    insulation_temperature -- highest continuous conductor temperature T_r [degC]
    gives                  -- time constant tau [s]
    Raises OutOfRange if area or ampacity is not positive, or T_r not above T_a.
    Holds as a lower bound: insulation and conduit take up heat as well.
    Source: heat balance of the conductor, definition.

    >>> round(warming_time(2.5e-6, 27.0, 30.0, 70.0))  # 2.5 mm² PVC, method C, 27 A: 57 s
    57
    """
    require_positive(area=area, ampacity=ampacity)
    require_within(ambient + 1e-9, 1083.0, insulation_temperature=insulation_temperature)
    resistivity = resistance_at_temperature(COPPER_RESISTIVITY, insulation_temperature)
    warming = insulation_temperature - ambient
    return COPPER_HEAT_CAPACITY * area**2 * warming / (resistivity * ampacity**2)


def overload_temperature(
    steady: float, initial: float, time_constant: float, time: float
) -> float:
    """Conductor temperature a time after an overload began.

    T_s - (T_s - T_i) exp(-t / tau)

    steady        -- temperature that the overload would lead to T_s [degC]
    initial       -- temperature when it begins T_i [degC]
    time_constant -- of the conductor's warming tau [s]
    time          -- since it began t [s]
    gives         -- conductor temperature T [degC]
    Holds where heat escapes in proportion to the rise; above the rated temperature the copper's
    resistance and the escape of heat both grow, and nearly cancel.
    Raises OutOfRange if time is negative or time_constant not positive.
    Source: differential equation of one body that loses heat in proportion, definition.

    >>> round(overload_temperature(130.0, 70.0, 60.0, 60.0), 1)  # hand: 130 - 60 × 0.3679
    107.9
    """
    require_not_negative(time=time)
    require_positive(time_constant=time_constant)
    return steady - (steady - initial) * exp(-time / time_constant)
