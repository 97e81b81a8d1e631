"""What the file may state for this pack beside the drawing, and how rules read it.

Each option answers a question that a clause asks and a drawing cannot.
"""

from __future__ import annotations

from typing import Any

PACK = "iec_low_voltage"


def stated(study: Any, name: str) -> Any:
    """The value of an option in the system file; None where it is not stated."""
    reader = getattr(study, "option", None)
    return None if reader is None else reader(PACK, name)


def asked(name: str, question: str) -> str:
    """The phrase for what is missing: which option to state, and what it asks."""
    return f"options: {PACK}: {name} ({question})"
