"""Many jobs checked anew, each held to its seal: on this machine's processors, or on others.

`looking` finds the files, `worker` checks them, `running` hands them out and takes what comes
back, whatever becomes of the workers; `state` keeps what is done, `tally` adds up.
"""

from coordination.fleet.looking import Found, look
from coordination.fleet.running import recheck
from coordination.fleet.setting import Setting
from coordination.fleet.state import State
from coordination.fleet.tally import Tally

__all__ = ["Found", "Setting", "State", "Tally", "look", "recheck"]
