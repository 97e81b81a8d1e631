"""The words of the page in one language, each language a file of its own.

A file has two kinds of words: `[text]`, asked for by key, which every file must have; and
`[phrases]`, English words that come from elsewhere (a schedule's columns, the usual cautions) with
what stands for them. A phrase that a file lacks stays English.
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from importlib.resources import files
from typing import NamedTuple

_FOLDER = files("coordination.papers") / "languages"
_ENDING = ".toml"


class Language(NamedTuple):
    """One language.

    code    -- as in HTML's `lang`: "en", "de"
    text    -- key to words, with {places} for what is put in
    phrases -- English words to words of this language
    """

    code: str
    text: Mapping[str, str]
    phrases: Mapping[str, str]

    def __call__(self, key: str, **put_in: object) -> str:
        """The words of a key. Raises KeyError where the file lacks it."""
        words = self.text[key]
        return words.format(**put_in) if put_in else words

    def say(self, english: str) -> str:
        """What stands for English words from elsewhere; the same where nothing does."""
        return self.phrases.get(english, english)

    def speaks(self, english: str) -> bool:
        """Whether `say` gives words of this language."""
        return self.code == "en" or english in self.phrases


def languages() -> tuple[str, ...]:
    """Codes of the languages there are."""
    names = (each.name for each in _FOLDER.iterdir() if each.name.endswith(_ENDING))
    return tuple(sorted(name.removesuffix(_ENDING) for name in names))


def language(code: str) -> Language:
    """A language by its code. Raises KeyError where there is none."""
    if code not in languages():
        raise KeyError(code)
    words = tomllib.loads((_FOLDER / f"{code}{_ENDING}").read_text(encoding="utf-8"))
    return Language(code, words["text"], words.get("phrases", {}))
