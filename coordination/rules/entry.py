"""Which packs are installed: reads the entry points without importing a pack.

`importlib.metadata` parses every installed distribution (tens of milliseconds); looking at
the `entry_points.txt` files beside them answers the usual case. What it does not find is asked
of `importlib.metadata`, which also knows zip files and foreign importers.
"""

from __future__ import annotations

import os
import re
import sys
from collections.abc import Iterator, Mapping

#: Pack name to the places that offer it, "module" or "module:attribute"; more than one is a clash.
Offers = Mapping[str, tuple[str, ...]]


def installed(group: str) -> Offers:
    """Packs offered by distributions that lie unpacked on sys.path."""
    found: dict[str, dict[str, None]] = {}
    for text in _entry_point_files(sys.path):
        if group in text:
            for name, value in _section(text, group):
                found.setdefault(name, {})[value] = None
    return {name: tuple(values) for name, values in found.items()}


def all_installed(group: str) -> Offers:
    """Packs offered by any distribution, however it is installed; slow."""
    from importlib.metadata import entry_points

    found: dict[str, dict[str, None]] = {}
    for point in entry_points(group=group):
        found.setdefault(point.name, {})[point.value] = None
    return {name: tuple(values) for name, values in found.items()}


def _entry_point_files(path: list[str]) -> Iterator[str]:
    seen: set[str] = set()
    for folder in path:
        try:
            names = os.listdir(folder or ".")
        except OSError:
            continue
        for name in names:
            if not name.endswith((".dist-info", ".egg-info")):
                continue
            distribution = re.sub(r"[-_.]+", "-", name.rpartition(".")[0].partition("-")[0]).lower()
            if distribution not in seen:
                seen.add(distribution)
                yield _text(os.path.join(folder, name, "entry_points.txt"))


def _text(path: str) -> str:
    try:
        with open(path, encoding="utf-8") as file:
            return file.read()
    except (OSError, UnicodeDecodeError):
        return ""


def _section(text: str, group: str) -> Iterator[tuple[str, str]]:
    inside = False
    for line in text.splitlines():
        line = line.strip()
        if line.startswith("["):
            inside = line == f"[{group}]"
        elif inside and "=" in line and not line.startswith(("#", ";")):
            name, _, value = line.partition("=")
            yield name.strip(), value.strip()
