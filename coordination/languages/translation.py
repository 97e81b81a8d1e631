"""A language other than English: words for what the code says, found by its English."""

from __future__ import annotations

import re
from collections.abc import Mapping

from coordination.languages.language import CLOSE, OPEN, Language
from coordination.languages.sentences import Sentences

_POINT = re.compile(r"(?<![\w.])(\d+)\.(?=\d)(?!\d+\.)")
#: Only English writes a percent sign against its number.
_SHARE = re.compile(r"(\d)%")
_LINE = re.compile(r"(.*?),? ?\bline (\d+)")
#: Fields of the file and of parts: they are written so in every language.
_FIELD = re.compile(r"[\w.]+")
#: Words in a row make a text English; "183.455(b)" or "Table 5" does not.
_PROSE = re.compile(r"[a-z]{2,}[ ,:]+(?:[\w%().]+ )?[a-z]{3,}|^[a-z]{4,}$")


def foreign(text: str) -> str:
    """The text marked as English."""
    return f"{OPEN}{text}{CLOSE}" if text.strip() else text


class Translation(Language):
    """A language with words of its own.

    phrases -- English phrases and sentences, with {places}, to words of this language
    decimal -- its decimal sign
    """

    def __init__(
        self, code: str, text: Mapping[str, str], phrases: Mapping[str, str], decimal: str = ","
    ) -> None:
        super().__init__(code, text)
        self.phrases, self._decimal = phrases, decimal
        self._sentences = Sentences(phrases, self.figure)

    def say(self, english: str) -> str:
        """What stands for English words, or for a sentence with names and figures in it."""
        found = self.known(english)
        return foreign(english) if found is None else found

    def put(self, english: str, **put_in: object) -> str:
        """A sentence of the code's own with {places} filled by what is in this language already."""
        words = self.phrases.get(english)
        return foreign(english.format(**put_in)) if words is None else words.format(**put_in)

    def figure(self, text: str) -> str:
        """A figure, or several with signs between them, with this language's decimal sign."""
        return _SHARE.sub(r"\1 %", _POINT.sub(rf"\1{self._decimal}", text))

    def formula(self, text: str) -> str:
        """A formula with its numbers: a comma between two of them would be read as a decimal."""
        known = self.phrases.get(text)
        return self.figure(text.replace(", ", "; ")) if known is None else known

    def lack(self, phrase: str) -> str:
        """What is missing, "who: what": a name, then a field of the file or words."""
        known = self.known(phrase)
        if known is not None:
            return known
        who, colon, what = phrase.partition(": ")
        if not colon:
            return self.say(phrase)
        return f"{who}: {what if _FIELD.fullmatch(what) else self.say(what)}"

    def cite(self, document: str) -> str:
        """A document, clause or place in the file; their own words belong to no language."""
        known = self.known(document)
        if known is not None:
            return known
        at = _LINE.fullmatch(document)
        if at:
            line = self.put("line {number}", number=at[2])
            return f"{self.cite(at[1])}, {line}" if at[1] else line
        _, colon, what = document.partition(": ")
        if colon and _FIELD.fullmatch(what):
            return document
        return foreign(document) if _PROSE.search(document) else document

    def known(self, english: str) -> str | None:
        """The words for English; None where there are none."""
        if not english:
            return ""
        said = self._sentences.known(english)
        return None if said is None else said.text
