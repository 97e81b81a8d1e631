"""How warm a conductor gets under load, and what ambient temperature leaves of its ampacity.

Takes an ampacity as given; where it comes from is `ampacity`'s or a code's affair.
"""

from __future__ import annotations

from math import sqrt

from coordination.errors import OutOfRange
from coordination.physics.guards import (
    require_not_negative,
    require_positive,
    require_temperature,
)


def _require_above(reference: float, insulation_temperature: float) -> None:
    require_temperature(reference=reference, insulation_temperature=insulation_temperature)
    if insulation_temperature <= reference:
        bound = f"above the reference ambient, {reference:g} °C"
        raise OutOfRange("insulation_temperature", insulation_temperature, bound)


def load_temperature(
    current: float, ampacity: float, ambient: float, insulation_temperature: float, reference: float
) -> float:
    """Conductor temperature under a steady load.

    T_a + (T_r - T_ref) (I / I_z)²

    current                -- load I [A]
    ampacity               -- current I_z that warms it to T_r in an ambient T_ref [A]
    ambient                -- air temperature T_a [degC]
    insulation_temperature -- highest continuous conductor temperature T_r [degC]
    reference              -- ambient T_ref of the ampacity; T_a if it is corrected [degC]
    gives                  -- conductor temperature T [degC]
    Raises OutOfRange if current is negative, ampacity not positive, or T_r not above T_ref.
    Holds for steady load; ignores that copper's resistance is lower below T_r (errs high there).
    Source: BS 7671:2008, Appendix 4, section 6 (from memory, not read here).

    >>> round(load_temperature(100.0, 200.0, 30.0, 90.0, 30.0))  # hand: 30 + 60 / 4
    45
    """
    require_not_negative(current=current)
    require_positive(ampacity=ampacity)
    require_temperature(ambient=ambient)
    _require_above(reference, insulation_temperature)
    return ambient + (insulation_temperature - reference) * (current / ampacity) ** 2


def ambient_factor(insulation_temperature: float, ambient: float, reference: float) -> float:
    """Share of an ampacity that is left in another ambient; 0 where the air is as hot as allowed.

    sqrt((T_r - T_a) / (T_r - T_ref))

    insulation_temperature -- highest continuous conductor temperature T_r [degC]
    ambient                -- air temperature T_a [degC]
    reference              -- ambient T_ref for which the ampacity holds [degC]
    gives                  -- factor [1]
    Raises OutOfRange if T_r is not above T_ref.
    Holds for published ambient factors to 0.006; codes round theirs, so look those up.
    Source: IEC 60364-5-52:2009, Table B.52.14, whose factors it reproduces.

    >>> round(ambient_factor(70.0, 50.0, 30.0), 2)  # PVC at 50 °C: 0.71
    0.71
    """
    require_temperature(ambient=ambient)
    _require_above(reference, insulation_temperature)
    if ambient >= insulation_temperature:
        return 0.0
    return sqrt((insulation_temperature - ambient) / (insulation_temperature - reference))
