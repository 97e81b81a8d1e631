"""Why a pack cannot be used."""

from __future__ import annotations


class PackRefusedError(Exception):
    """Why a pack cannot be used, and what was probably meant."""

    def __init__(self, what: str, near_miss: str = "") -> None:
        super().__init__(what)
        self.what, self.near_miss = what, near_miss


def titled(name: str, version: str = "", where: str = "") -> str:
    """ "pack 'mine' 1.2 (pack.py:12)", as every refusal begins."""
    place = f" ({where})" if where else ""
    return f"pack {name!r}{' ' + version if version else ''}{place}"
