"""Largest resistance at 20 °C that IEC 60228 allows a copper conductor of each class and size.

Class 2 of 0.5 and 0.75 mm² was read; every other figure is from memory. Class 6 has class 5's
limits. Class 1 has class 2's limits up to 16 mm², where its rows end here.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

_SIZES = (0.5, 0.75, 1, 1.5, 2.5, 4, 6, 10, 16, 25, 35, 50, 70, 95, 120, 150, 185, 240, 300)
_CLASS_2 = (36.0, 24.5, 18.1, 12.1, 7.41, 4.61, 3.08, 1.83, 1.15, 0.727, 0.524, 0.387, 0.268,
            0.193, 0.153, 0.124, 0.0991, 0.0754, 0.0601)
_CLASS_2_TINNED = (36.7, 24.8, 18.2, 12.2, 7.56, 4.70, 3.11, 1.84, 1.16, 0.734, 0.529, 0.391,
                   0.270, 0.195, 0.154, 0.126, 0.100, 0.0762, 0.0607)
_CLASS_5 = (39.0, 26.0, 19.5, 13.3, 7.98, 4.95, 3.30, 1.91, 1.21, 0.780, 0.554, 0.386, 0.272,
            0.206, 0.161, 0.129, 0.106, 0.0801, 0.0641)
_CLASS_5_TINNED = (40.1, 26.7, 20.0, 13.7, 8.21, 5.09, 3.39, 1.95, 1.24, 0.795, 0.565, 0.393,
                   0.277, 0.210, 0.164, 0.132, 0.108, 0.0817, 0.0654)


def _column(values: tuple[float, ...]) -> Mapping[float, float]:
    return MappingProxyType(dict(zip(_SIZES, values, strict=False)))


#: Stranding class to nominal size [mm²] to largest resistance at 20 °C [Ω/km].
CLASS_LIMITS: Mapping[str, Mapping[float, float]] = MappingProxyType(
    {
        "class 1": _column(_CLASS_2[:9]),
        "class 2": _column(_CLASS_2),
        "class 2 tinned": _column(_CLASS_2_TINNED),
        "class 5": _column(_CLASS_5),
        "class 5 tinned": _column(_CLASS_5_TINNED),
        "class 6": _column(_CLASS_5),
        "class 6 tinned": _column(_CLASS_5_TINNED),
    }
)


def class_limit(area: float, stranding: str | None) -> float | None:
    """Largest resistance per length at 20 °C that the standard allows, None where it has no row.

    R_class

    area      -- nominal cross-section S [m**2]
    stranding -- class in words, "class 5 tinned" [text]
    gives     -- resistance per length at 20 °C [ohm/m]
    Source: IEC 60228:2004, Tables 1 to 4 (class 2 of 0.5 and 0.75 mm² read, the rest from memory).

    >>> round(class_limit(16e-6, "class 5") * 1000, 2)  # 1.21 Ω/km
    1.21
    >>> class_limit(21.15e-6, "class 5") is None  # 4 AWG is no size of the standard
    True
    """
    limit = CLASS_LIMITS.get(stranding or "", {}).get(round(area * 1e6, 3))
    return None if limit is None else limit / 1000
