"""The outcome of a job whose process did not come back; the same from every engine."""

from __future__ import annotations

from coordination.fleet.job import no_verdict
from coordination.fleet.setting import Order, Outcome


def lost(order: Order, hung: bool, limit: float) -> Outcome:
    """No verdict: it took longer than `limit` [s], or the process died, twice each."""
    if hung:
        line = no_verdict(order.path, "hung", f"it took longer than {limit:g} s, twice")
    else:
        line = no_verdict(order.path, "died", "the process that checked it died, twice")
    return Outcome(order.number, line)
