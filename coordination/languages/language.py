"""What the rest asks a language for; by itself it is English as the code says it.

`files.language` gives one by its code, with its words.
"""

from __future__ import annotations

from collections.abc import Mapping

#: Around English in a text of another language; `report.wording.clean` lets neither through.
OPEN, CLOSE = "\ue000", "\ue001"

_MARKS = {ord(OPEN): None, ord(CLOSE): None}


def plain(text: str) -> str:
    """The text without the signs around English."""
    return text.translate(_MARKS)


class Language:
    """One language; this one leaves all English as it is.

    code -- as in HTML's `lang`: "en", "de"
    text -- key to words, with {places} for what is put in
    What has no words in a language stays English, between two signs that no text from outside can
    hold: who writes for people makes them a mark (`lang="en"`), or takes them away with `plain`.
    """

    def __init__(self, code: str, text: Mapping[str, str]) -> None:
        self.code, self.text = code, text

    def __call__(self, key: str, **put_in: object) -> str:
        """The words of a key. Raises KeyError where the file lacks it."""
        words = self.text[key]
        return words.format(**put_in) if put_in else words

    def say(self, english: str) -> str:
        """What stands for English words, or for a sentence with names and figures in it."""
        return english

    def put(self, english: str, **put_in: object) -> str:
        """A sentence of the code's own with {places} filled by what is in this language already."""
        return english.format(**put_in)

    def figure(self, text: str) -> str:
        """A figure, or several with signs between them, with this language's decimal sign."""
        return text

    def formula(self, text: str) -> str:
        """A formula with its numbers."""
        return text

    def lack(self, phrase: str) -> str:
        """What is missing, "who: what": a name, then a field of the file or words."""
        return phrase

    def cite(self, document: str) -> str:
        """A document, clause or place in the file; their own words belong to no language."""
        return document


#: The code's own words, without a file.
ENGLISH = Language("en", {})
