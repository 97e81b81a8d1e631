"""Small words of every report: names made printable, values with units, sources, places.

Knows how one thing is put into words; what a report says, and in which order, is for others.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from coordination.languages.language import ENGLISH
from coordination.trace import Derived, Unknown

if TYPE_CHECKING:
    from coordination.languages.language import Language
    from coordination.trace import Source, Value

#: What stands where a number cannot be had.
UNKNOWN = "unknown"

#: Pure numbers below this are shown as whole numbers if they are.
_WHOLE = 1e6

#: The answer's relations as signs for people.
RELATIONS = {"<=": "≤", ">=": "≥", "": ""}


def clean(text: str) -> str:
    """The text with every control, escape, bidirectional or invisible character made visible.

    A name comes from a file anybody may have written; it must not move the reader's cursor.

    >>> clean("pack\\x1b[31m")
    'pack\\\\x1b[31m'
    """
    if text.isprintable():
        return text
    return "".join(sign if sign.isprintable() else _visible(sign) for sign in text)


def _visible(sign: str) -> str:
    return sign.encode("unicode_escape", "surrogatepass").decode("ascii")


@lru_cache(maxsize=4096)
def number(value: float, unit: str, written: str = "", digits: int = 3) -> str:
    """A value [unit, SI] with its unit, in the unit it was written in where there is one."""
    if not unit and not written and float(value).is_integer() and abs(value) < _WHOLE:
        return str(int(value))
    from catalogue.quantities import show

    return clean(show(value, unit, written, digits))


def amount(value: Value | None, digits: int = 3) -> str:
    """A value for the reader; "unknown" for what cannot be had, "" where there is none."""
    if isinstance(value, Derived):
        return number(value.value, value.unit, value.written, digits)
    return UNKNOWN if isinstance(value, Unknown) else ""


def compared(found: Value | None, required: Value | None) -> tuple[str, str]:
    """Both sides of a comparison, alike in unit, with as many digits as tell them apart."""
    own = found.written if isinstance(found, Derived) else ""
    limit = required.written if isinstance(required, Derived) else ""
    for digits in (3, 4, 6, 9):
        pair = _shown(found, own or limit, digits), _shown(required, limit or own, digits)
        if pair[0] != pair[1]:
            break
    return pair


def _shown(value: Value | None, written: str, digits: int) -> str:
    if isinstance(value, Derived):
        return number(value.value, value.unit, written, digits)
    return amount(value)


def source_words(source: Source | None, words: Language = ENGLISH) -> str:
    """Document and clause; a figure whose text was not read says so."""
    if source is None:
        return ""
    told = (words.cite(clean(each)) for each in (source.document, source.clause) if each)
    said = ", ".join(told)
    return said if source.read else words.put("{document} (from memory)", document=said)


def place(file: str, line: int) -> str:
    """ "cabin.yaml:14", or only the file where there is no line."""
    return clean(f"{file}:{line}" if line else file)


def counted(count: int, word: str) -> str:
    """ "1 fail", "2 fails"; the plural is the word with an s."""
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
