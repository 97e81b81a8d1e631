"""Which cables feed an engine's starter: several clauses leave them out."""

from __future__ import annotations

from typing import Any

from coordination.rules.kit.starters import cranks, main_feed


def is_cranking(cable: Any, study: Any) -> bool:
    """Whether the cable brings current to a starter, or is the main feed from a battery to it.

    Those clauses speak of what the conductor is for, so a device on the way does not matter.
    """
    circuit = study.system.circuits[cable.circuit]
    return cranks(circuit, study, through_devices=True) or main_feed(
        circuit, study, through_devices=True
    )
