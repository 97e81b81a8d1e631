"""The doors of the physics functions: numbers outside an equation's range are refused by name.

NaN and infinity are outside every range, so that no equation can turn them into a verdict.
"""

from __future__ import annotations

from math import inf, isfinite

from coordination.errors import OutOfRange

ABSOLUTE_ZERO = -273.15


def require_positive(**values: float) -> None:
    """Refuse anything that is not a finite number above zero; raises OutOfRange."""
    for name, value in values.items():
        if not 0.0 < value < inf:
            raise OutOfRange(name, value, "positive")


def require_not_negative(**values: float) -> None:
    """Refuse anything that is not a finite number of at least zero; raises OutOfRange."""
    for name, value in values.items():
        if not 0.0 <= value < inf:
            raise OutOfRange(name, value, "zero or more")


def require_within(low: float, high: float, **values: float) -> None:
    """Refuse anything outside low ... high, both included; raises OutOfRange."""
    for name, value in values.items():
        if not (low <= value <= high and isfinite(value)):
            raise OutOfRange(name, value, f"within {low:g} ... {high:g}")


def require_count(**values: float) -> None:
    """Refuse anything that is not a whole number of at least one; raises OutOfRange."""
    for name, value in values.items():
        if not (1.0 <= value < inf and value == int(value)):
            raise OutOfRange(name, value, "a whole number, 1 or more")


def require_temperature(**values: float) -> None:
    """Refuse a temperature [degC] below absolute zero or not finite; raises OutOfRange."""
    for name, value in values.items():
        if not ABSOLUTE_ZERO < value < inf:
            raise OutOfRange(name, value, f"above {ABSOLUTE_ZERO} °C")


def require_some(**values: object) -> None:
    """Refuse an empty sequence: a bank of no batteries has no resistance; raises OutOfRange."""
    for name, value in values.items():
        if not value:
            raise OutOfRange(name, 0.0, "one value or more")
