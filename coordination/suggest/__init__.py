"""From a verdict to its cure: the smallest changes that make every rule hold in every condition."""

from coordination.suggest.answer import Answer, Bounds, Cure
from coordination.suggest.suggest import suggest

__all__ = ["Answer", "Bounds", "Cure", "suggest"]
