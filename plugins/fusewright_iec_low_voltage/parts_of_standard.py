"""The parts of IEC 60364 that this pack carries, in the editions that were in force in 2017."""

from __future__ import annotations

from coordination.rules import Source

EDITION = "2017"


def shock(clause: str) -> Source:
    """Part 4-41, protection against electric shock; from memory."""
    return Source("IEC 60364-4-41:2005 with A1:2017", clause, read=False)


def overcurrent(clause: str) -> Source:
    """Part 4-43, protection against overcurrent; from memory."""
    return Source("IEC 60364-4-43:2008", clause, read=False)


def wiring(clause: str, *, read: bool = True) -> Source:
    """Part 5-52, wiring systems; its tables were read in secondary copies."""
    return Source("IEC 60364-5-52:2009", clause, read=read)
