"""How near the edge a system is: the value of each input at which a verdict flips.

Judges through `checking`, many times over; knows no rule and no physics of its own.
"""

from coordination.margins.answer import Told, margins_answer
from coordination.margins.survey import Flip, Margin, Margins
from coordination.margins.whole import margins_told

__all__ = ["Flip", "Margin", "Margins", "Told", "margins_answer", "margins_told"]
