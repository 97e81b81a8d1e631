"""Hashes of what a verdict rests on beside the drawing: program, packs, files of rules."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Callable, Iterator
from functools import cache
from importlib.util import find_spec

from coordination.errors import BadInput, Problem
from coordination.rules.host import PackHost
from coordination.rules.refused import PackRefusedError


def of_bytes(data: bytes) -> str:
    """SHA-256 in hexadecimal digits."""
    return hashlib.sha256(data).hexdigest()


def of_file(path: str) -> str:
    """The hash of a file's content. Raises BadInput if it cannot be read."""
    try:
        with open(path, "rb") as stream:
            return hashlib.file_digest(stream, "sha256").hexdigest()
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        what = f"the file cannot be read: {reason.lower()}"
        raise BadInput((Problem(path, 0, 0, what),)) from error


@cache
def of_program() -> str:
    """The hash of the program's own Python files; parts and packs count for themselves."""
    return _of_packages(("coordination", "catalogue"), lambda name: name.endswith(".py"))


def of_pack(host: PackHost, name: str) -> str:
    """The hash of the files that an installed pack is made of; empty if it is not installed."""
    try:
        module = host.where(name)
    except PackRefusedError:
        return ""
    return _of_package(module.partition(":")[0].partition(".")[0].strip())


@cache
def _of_package(package: str) -> str:
    return _of_packages((package,), lambda name: not name.endswith((".pyc", ".pyo")))


def _of_packages(packages: tuple[str, ...], counts: Callable[[str], bool]) -> str:
    """The hash of every file of these packages that counts; empty if there is none."""
    whole = hashlib.sha256()
    found = False
    for package in packages:
        for name, path in _files(package):
            if counts(name):
                found = True
                whole.update(f"{package}/{name}\0{of_file(path)}\0".encode("utf-8", "replace"))
    return whole.hexdigest() if found else ""


def _files(package: str) -> Iterator[tuple[str, str]]:
    """Every file of a package, by its name inside it; the package is found, not imported."""
    try:
        spec = find_spec(package)
    except (ImportError, ValueError):
        spec = None
    if spec is None:
        return
    if spec.submodule_search_locations is None:
        if spec.origin and os.path.isfile(spec.origin):
            yield os.path.basename(spec.origin), spec.origin
        return
    for folder in spec.submodule_search_locations:
        for at, below, names in os.walk(folder):
            below[:] = sorted(each for each in below if each != "__pycache__")
            for name in sorted(names):
                path = os.path.join(at, name)
                if os.path.isfile(path):
                    yield os.path.relpath(path, folder).replace(os.sep, "/"), path
