"""The system in one condition as an electrical network: points, branches, sources and draws.

`connect` is the stage; the resistances carry their derivation. Knows the model and physics, solves
nothing.
"""

from coordination.network.connect import connect
from coordination.network.graph import Branch, Draw, Feed, Injection, Network
from coordination.network.loop import Loops, Way, ways

__all__ = ["Branch", "Draw", "Feed", "Injection", "Loops", "Network", "Way", "connect", "ways"]
