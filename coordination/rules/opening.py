"""Opens a system file together with its packs, whose words the reader needs.

Between the stages: `reading` knows no packs, and the packs are named in the file.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from coordination.model import System
from coordination.reading import Catalogue, read
from coordination.reading.vocabulary import Vocabulary
from coordination.rules.host import PackHost
from coordination.rules.pack import Packs
from coordination.rules.vocabulary import vocabulary


def open_system(
    path: str,
    catalogue: Catalogue,
    host: PackHost,
    *,
    more: Sequence[str] = (),
    without: Collection[str] = (),
) -> tuple[System, Packs]:
    """The system and its packs; the system's `packs` are those asked for in the end.

    more    -- packs beside those the file names; one with an edition takes the file's place
    without -- names of packs left out
    Raises BadInput with every problem of the file.
    """
    opened: list[tuple[tuple[str, ...], Packs]] = []

    def speak(named: tuple[str, ...]) -> Vocabulary:
        asked = tuple(_chosen(named, more, without))
        packs = host.load(asked)
        opened.append((asked, packs))
        return vocabulary(packs, (*named, *more))

    system = read(path, catalogue, speak)
    asked, packs = opened[0]
    return replace(system, packs=asked), packs


def _chosen(named: Iterable[str], more: Sequence[str], without: Collection[str]) -> Iterable[str]:
    pinned = {bare(name): name for name in more if "@" in name}
    whole = dict.fromkeys(pinned.get(bare(name), name) for name in named)
    there = set(map(bare, whole))
    whole |= dict.fromkeys(name for name in more if "@" in name or name not in there)
    return (name for name in whole if bare(name) not in without)


def bare(name: str) -> str:
    """A pack's name without its edition."""
    return name.partition("@")[0]
