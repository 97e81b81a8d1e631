"""Elements that the standard speaks of apart."""

from __future__ import annotations

from typing import Any

from coordination.rules.kit.starters import cranks


def is_switch(element: Any) -> bool:
    """Whether the element is a switch."""
    return bool(element.kind == "disconnect")


def of_starter(element: Any, study: Any) -> bool:
    """Whether the element lies in a circuit that brings current to an engine's starter."""
    circuit = study.system.circuits[element.circuit]
    return cranks(circuit, study, through_devices=True)
