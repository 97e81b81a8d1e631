"""Opens a system file together with its packs, whose words the reader needs.

Between the stages: `reading` knows no packs, and the packs are named in the file.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import replace

from catalogue.near_miss import nearest
from coordination.errors import BadInput, Problem
from coordination.model import System
from coordination.reading import Catalogue, read, read_bytes
from coordination.reading.vocabulary import Vocabulary
from coordination.rules.host import PackHost
from coordination.rules.pack import Packs
from coordination.rules.problem import RunProblem
from coordination.rules.vocabulary import vocabulary


def open_system(
    path: str,
    catalogue: Catalogue,
    host: PackHost,
    *,
    more: Sequence[str] = (),
    without: Collection[str] = (),
    attach: Callable[[Packs], Packs] = lambda packs: packs,
    data: bytes | None = None,
    lenient: bool = False,
) -> tuple[System, Packs]:
    """The system and its packs; the system's `packs` are those asked for in the end.

    more    -- packs beside those the file names; one with an edition takes the file's place
    without -- names of packs left out on purpose; the packs' problems say so
    attach  -- adds packs that are not installed
    data    -- the file's content, where it was read already
    lenient -- a pack to be left out need not be asked for: many files are opened alike
    Raises BadInput with every problem of the file, or for a pack left out that nobody asked for.
    """
    opened: list[tuple[tuple[str, ...], Packs]] = []

    def speak(named: tuple[str, ...]) -> Vocabulary:
        asked = tuple(_chosen(named, more, without))
        left = without
        if lenient:
            there = set(map(bare, (*named, *more)))
            left = [name for name in without if name in there]
        _check_left_out(left, (*named, *more))
        packs = attach(_remarked(host.load(asked), left))
        opened.append((asked, packs))
        return vocabulary(packs, (*named, *more))

    if data is None:
        system = read(path, catalogue, speak)
    else:
        system = read_bytes(data, path, catalogue, speak)
    asked, packs = opened[0]
    return replace(system, packs=asked), packs


def _check_left_out(without: Collection[str], asked: Sequence[str]) -> None:
    known = tuple(dict.fromkeys(map(bare, asked)))
    problems = []
    for name in without:
        if name not in known:
            what = f"pack {name!r} is not asked for, so it cannot be left out"
            near = nearest(name, known)
            problems.append(Problem("--without-pack", 0, 0, what, ", ".join(known), near))
    if problems:
        raise BadInput(tuple(problems))


def _remarked(packs: Packs, without: Collection[str]) -> Packs:
    for name in without:
        what = f"pack {name!r} was left out on purpose: nothing of it was checked"
        packs = packs.with_pack(RunProblem(kind="pack", about=name, what=what, incomplete=False))
    return packs


def _chosen(named: Iterable[str], more: Sequence[str], without: Collection[str]) -> Iterable[str]:
    pinned = {bare(name): name for name in more if "@" in name}
    whole = dict.fromkeys(pinned.get(bare(name), name) for name in named)
    there = set(map(bare, whole))
    whole |= dict.fromkeys(name for name in more if "@" in name or name not in there)
    return (name for name in whole if bare(name) not in without)


def bare(name: str) -> str:
    """A pack's name without its edition."""
    return name.partition("@")[0]
