"""What stays open between systems that are judged one after another: catalogue, packs, rules.

A part is read from the catalogue once, until somebody changes the catalogue.
"""

from __future__ import annotations

import os
from datetime import date

from catalogue.digest import content_of, digest_of
from catalogue.parts import Part
from catalogue.store import open_catalogue, shop_path
from coordination.checking.local import Local, LocalRules
from coordination.rules.host import PackHost

#: Parts that are kept; more are read anew.
MOST_KEPT = 4096


class Bench:
    """Open catalogue and packs, for many systems in turn; a context that closes the catalogue."""

    def __init__(
        self, catalogue: str | None = None, local: Local | None = None, today: date | None = None
    ) -> None:
        """Raises CatalogueError. `today` is the day on which editions must be in force."""
        self.catalogue = KeptParts(catalogue)
        self.host = PackHost(today=today)
        self.local = LocalRules(local or Local(), self.host.today)

    def __enter__(self) -> Bench:
        return self

    def __exit__(self, *_: object) -> None:
        self.catalogue.close()


class KeptParts:
    """A catalogue whose parts are kept once read; it notes what was looked for.

    looked -- id to the part that was found, or None; `begin` empties it
    """

    def __init__(self, path: str | None) -> None:
        """Raises CatalogueError."""
        self._path = shop_path(path)
        self._state = _state(self._path)
        self._open = open_catalogue(path)
        self._kept: dict[str, Part | None] = {}
        self._digests: dict[str, str] = {}
        self._revisions: dict[str, int | None] = {}
        self.looked: dict[str, Part | None] = {}

    def begin(self) -> None:
        """Begin with another system; forget the parts if the shop's file changed.

        Raises CatalogueError: it is no catalogue any more.
        """
        self.looked = {}
        state = _state(self._path)
        if state != self._state:
            self._kept, self._digests, self._revisions = {}, {}, {}
            self._open.close()
            self._open = open_catalogue(self._path)
            self._state = state

    def get(self, part_id: str, /) -> Part | None:
        """The part of that id. Raises CatalogueError."""
        if part_id not in self._kept:
            if len(self._kept) >= MOST_KEPT:
                self._kept.clear()
            self._kept[part_id] = self._open.get(part_id)
        part = self.looked[part_id] = self._kept[part_id]
        return part

    def digest(self, part_id: str) -> str:
        """Origin and digest of what a part states; empty: there is none. Raises CatalogueError."""
        if part_id not in self._digests:
            if len(self._digests) >= MOST_KEPT:
                self._digests.clear()
            part = self.get(part_id)
            stated = "" if part is None else f"{part.origin} {digest_of(content_of(part))}"
            self._digests[part_id] = stated
        return self._digests[part_id]

    def near(self, part_id: str, kind: str, /) -> str | None:
        """The id of that kind most like `part_id`."""
        return self._open.near(part_id, kind)

    def revision(self, part_id: str) -> int | None:
        """The number of the part's revision in the shop's file; None: it has none there.

        Raises CatalogueError.
        """
        if part_id not in self._revisions:
            if len(self._revisions) >= MOST_KEPT:
                self._revisions.clear()
            shop = self._open.shop
            found = None if shop is None else shop.revision_of(part_id)
            self._revisions[part_id] = found[0] if found else None
        return self._revisions[part_id]

    def close(self) -> None:
        """Let go of the files."""
        self._open.close()


def _state(path: str | None) -> tuple[tuple[int, int, int], ...]:
    """What differs once somebody has written to the shop's file, or put another in its place."""
    if path is None:
        return ()
    found = []
    for name in (path, f"{path}-wal"):
        try:
            stat = os.stat(name)
            found.append((stat.st_ino, stat.st_size, stat.st_mtime_ns))
        except OSError:
            found.append((0, 0, 0))
    return tuple(found)
