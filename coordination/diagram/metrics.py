"""How wide text is at most, and how it is broken into lines that fit.

Widths are those of a wide sans-serif typeface (DejaVu Sans, as matplotlib ships it); Arial,
Helvetica and their like are narrower, so what fits here fits with them.
"""

from __future__ import annotations

import re
from functools import lru_cache
from unicodedata import combining, normalize


def _table(text: str) -> tuple[int, ...]:
    return tuple(int(word) for word in text.split())


#: Advance widths of U+0020 to U+007E in thousandths of the size.
_REGULAR = _table("""
    318 401 460 838 636 950 780 275 390 390 500 838 318 361 318 337 636 636 636 636
    636 636 636 636 636 636 337 337 838 838 838 531 1000 684 686 698 770 632 575 775
    752 295 295 656 557 863 748 787 603 787 695 635 611 732 684 989 685 611 685 390
    337 390 838 500 500 613 635 550 635 615 352 635 634 278 278 579 278 974 634 612
    635 635 411 521 392 634 592 818 592 592 525 636 337 636 838
    """)
_BOLD = _table("""
    348 456 521 838 696 1002 872 306 457 457 523 838 380 415 380 365 696 696 696 696
    696 696 696 696 696 696 400 400 838 838 838 580 1000 774 762 734 830 683 683 821
    837 372 372 775 637 995 837 850 733 850 770 720 682 812 774 1103 771 724 725 457
    365 457 838 500 500 675 716 593 716 678 435 716 712 343 343 665 343 1042 712 687
    716 716 493 595 478 712 652 924 645 652 582 712 365 712 838
    """)
_SIGNS = {"·": 380, "²": 438, "°": 500, "×": 838, "Ω": 850, "µ": 736, "μ": 736, "…": 1000}
#: Where a line may end: at a blank, but not between a number and its unit.
_BREAKS = re.compile(r"(?<!\d) ")
#: What any other sign is taken to need; few are wider.
_OTHER = 1250


@lru_cache(maxsize=8192)
def text_width(text: str, size: float, *, bold: bool = False) -> float:
    """How wide [px] a line of text is at most."""
    table = _BOLD if bold else _REGULAR
    return sum(_width(sign, table) for sign in text) * size / 1000


def _width(sign: str, table: tuple[int, ...]) -> int:
    code = ord(sign)
    if 32 <= code < 127:
        return table[code - 32]
    if sign in _SIGNS:
        return _SIGNS[sign]
    if combining(sign):
        return 0
    base = ord(normalize("NFD", sign)[0])
    return table[base - 32] if 32 <= base < 127 else _OTHER


def wrapped(
    text: str, size: float, width: float, *, bold: bool = False, most: int = 3
) -> tuple[str, ...]:
    """The text in lines no wider than `width` [px], at most so many; the last one may be cut."""
    lines: list[str] = []
    for word in _BREAKS.split(text):
        joined = f"{lines[-1]} {word}" if lines else word
        if lines and text_width(joined, size, bold=bold) <= width:
            lines[-1] = joined
        else:
            lines.extend(_pieces(word, size, width, bold))
    if len(lines) > most:
        lines = [*lines[: most - 1], _cut(" ".join(lines[most - 1 :]), size, width, bold)]
    return tuple(lines)


def _pieces(word: str, size: float, width: float, bold: bool) -> list[str]:
    """A word in pieces that fit."""
    pieces = [""]
    for sign in word:
        if pieces[-1] and text_width(pieces[-1] + sign, size, bold=bold) > width:
            pieces.append(sign)
        else:
            pieces[-1] += sign
    return pieces


def _cut(text: str, size: float, width: float, bold: bool) -> str:
    """The beginning of a text, with a sign that there is more."""
    while text and text_width(text + "…", size, bold=bold) > width:
        text = text[:-1]
    return text.rstrip() + "…"
