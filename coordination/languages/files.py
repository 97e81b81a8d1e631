"""The files of words: the engine's own, and those that rule packs bring in their packages.

A file has two tables: `[text]`, asked for by key, which every file of the engine must have whole;
and `[phrases]`, English as the code says it, with what stands for it.
"""

from __future__ import annotations

import sys
from collections.abc import Iterable, Mapping
from importlib.resources import files
from typing import Any

from coordination.languages.language import Language

OWN = "coordination"
_FOLDER, _ENDING = "languages", ".toml"


def languages() -> tuple[str, ...]:
    """Codes of the languages there are."""
    names = (each.name for each in (files(OWN) / _FOLDER).iterdir())
    return tuple(sorted(name.removesuffix(_ENDING) for name in names if name.endswith(_ENDING)))


def language(code: str, packages: Iterable[str] = ()) -> Language:
    """A language by its code. Raises KeyError where there is none.

    packages -- of rule packs; what one does not bring in this language stays English, marked
    """
    if code not in languages():
        raise KeyError(code)
    own = words_of(OWN, code)
    if code == "en":
        return Language(code, own["text"])
    from coordination.languages.translation import Translation

    phrases: dict[str, str] = {}
    for package in packages:
        phrases |= words_of(package, code).get("phrases", {})
    return Translation(code, own["text"], phrases | own["phrases"])


def words_of(package: str, code: str) -> Mapping[str, Any]:
    """The words that a package in use brings in a language; nothing where it brings none."""
    import tomllib

    if package not in sys.modules:
        return {}
    try:
        file = files(package) / _FOLDER / f"{code}{_ENDING}"
        return tomllib.loads(file.read_text(encoding="utf-8"))
    except (OSError, TypeError):
        return {}
