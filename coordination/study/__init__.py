"""Every computed quantity a rule may ask for, in one condition, each with its derivation.

`study` is the stage. Knows the network and physics; judges nothing.
"""

from coordination.study.kinds import BranchDevices, Leg, Protection
from coordination.study.study import Study, study

__all__ = ["BranchDevices", "Leg", "Protection", "Study", "study"]
