"""What single events leave of a network: who goes dark, which source loses its batteries.

`events` says what can happen, `cuts` finds in one walk what opening any element parts from what,
`after` tells what is left, `supply` whether limited sources can carry it. Reached by the study's
accessors only, so that a run which asks nothing of this pays nothing.
"""

from coordination.study.outages.after import Left, Outcome, Supplied
from coordination.study.outages.events import Event
from coordination.study.outages.survey import Outages

__all__ = ["Event", "Left", "Outages", "Outcome", "Supplied"]
