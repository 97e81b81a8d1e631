"""What packs with several editions do alike."""

from __future__ import annotations

from dataclasses import replace

from coordination.rules import Card, Source


def dated(card: Card, source: Source) -> Card:
    """The card for one edition; a clause that was not read there gives paperwork at most."""
    return replace(card, source=source, severity=card.severity if source.read else "paperwork")
