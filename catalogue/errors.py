"""What can be wrong with a catalogue file; shown without a traceback."""

from __future__ import annotations


class CatalogueError(Exception):
    """A catalogue that cannot be used, or a change that it refuses; the user's to mend."""


def meaning(error: Exception, path: str, doing: str) -> str:
    """What an error of SQLite means to the user.

    doing -- "read" or "written": what could not be done
    """
    text = str(error)
    if "locked" in text or "busy" in text:
        return f"{path!r} is being changed by another program; try again"
    if "not a database" in text:
        return f"{path!r} is not a database"
    if "constraint failed" in text:
        return f"the catalogue refuses a part: {text}"
    if "malformed" in text:
        return f"{path!r} cannot be {doing}: it is damaged ({text}); put a backup in its place"
    if "is full" in text:
        return f"{path!r} cannot be written: there is no room left; nothing was changed"
    return f"{path!r} cannot be {doing}: {text}"
