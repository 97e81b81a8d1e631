"""What can be wrong with a catalogue file; shown without a traceback."""

from __future__ import annotations


class CatalogueError(Exception):
    """A catalogue that cannot be used, or a change that it refuses; the user's to mend."""
