"""Which circuits article 551 calls low voltage."""

from __future__ import annotations

from typing import Any

from coordination.rules import Judgement, Source, Unknown, note, unproven
from fusewright_us_premises.disconnecting import above

#: Low voltage is up to 24 V nominal (551.2); a bank of 25.6 V by its cells is sold as one of 24 V
#: and counted as such.
LOW = 24.0


def not_low_voltage(point: str, study: Any, source: Source) -> Judgement | None:
    """The answer for a circuit that article 551 does not call low voltage; None where it does."""
    nominal = study.island_nominal(point)
    if isinstance(nominal, Unknown):
        return unproven(*nominal.missing)
    if above(nominal.value, LOW):
        words = f"{nominal.value:g} V nominal is above {LOW:g} V: not low voltage of article 551"
        return note(words, source=source)
    return None
