"""Puts an SVG picture into a page: nothing in it may meet what is elsewhere on the page.

Takes pictures of our own making only, in which all text is escaped.
"""

from __future__ import annotations

import re
from functools import lru_cache
from html import escape
from typing import NamedTuple

_ID = re.compile(r'(?<=\sid=")[^"]+(?=")')
_NAMED = re.compile(r'\sid="([^"]+)"')
_USE = re.compile(r'(?<=url\(#)[^)]+(?=\))|(?<=href="#)[^"]+(?=")')
_ROOT = re.compile(r"<svg\b([^>]*)>", re.DOTALL)
_ATTRIBUTE = re.compile(r'\s([\w:.-]+)="([^"]*)"')
_WASTE = re.compile(r"<metadata>.*?</metadata>|<style\b[^>]*>.*?</style>|<!--.*?-->", re.DOTALL)
_DRAWN = re.compile(r'(?<=\sd=")[^"]+(?=")')
_LONG = re.compile(r"-?\d+\.\d{3,}")
_BLANKS = re.compile(r"\s*\n\s*")
#: Dots of a hatching, each four curves; a round end of a line of no length is the same dot.
_HATCHED = re.compile(
    r'(<pattern\b[^>]*>(?:(?!</pattern>).)*?<path d=")([^"]*)("[^>]*style="[^"]*)(?=")', re.DOTALL
)
_DOT = re.compile(r"M (\S+) (\S+)\s+C [^Mz]*z")
#: Lines that are drawn alike, one after the other.
_ALIKE = re.compile(r'<path d="([^"]*)"((?: [\w-]+="[^"]*")*)/>(?:\s*<path d="[^"]*"\2/>)+')
_DATA = re.compile(r' data-[\w-]+="[^"]*"')
#: What most marks of a drawing have stands once, at its root.
_USUAL = (' stroke-width="1.3"', ' font-size="9.5"')
#: A turn by nothing, a font that the root names, and a group of one thing without a name.
_NOTHING = re.compile(r' transform="rotate\(-?0(?: [^)]*)?\)"| font-family: \'DejaVu Sans\';')
_ALONE = re.compile(r"<g>\s*(<(?:path|use)\b[^>]*/>|<text\b[^>]*>[^<]*</text>)\s*</g>")
_PLACED = re.compile(r'(?<=\s[xy]=")-?\d+\.\d{3,}')
_LETTER = re.compile(r" ?([MLCQZz]) ?")
#: Attributes of a root that a page does without: the size is the page's own.
_OWN = ("width", "height", "version", "xmlns", "xmlns:xlink", "id", "role", "aria-label", "style")


class Picture(NamedTuple):
    """A picture in a page.

    title  -- what it is; words -- what it shows, for who cannot see it
    markup -- inline SVG; width, height -- as it was drawn, in units of its own
    """

    title: str
    words: str
    markup: str
    width: float
    height: float


def inline(svg: str, name: str, words: str) -> str:
    """The picture as markup in HTML.

    name -- a word that no other picture of the page has: ids are made its own by it
    words -- what it shows, for who cannot see it
    """
    body = _WASTE.sub("", svg[svg.index("<svg") :]).rstrip()
    attributes = _ROOT.match(body)
    assert attributes is not None
    given = dict(_ATTRIBUTE.findall(attributes[1]))
    inner = renamed(_slim(_named_if_used(body[attributes.end() :])), name, set())
    rest = " ".join(f'{key}="{text}"' for key, text in given.items() if key not in _OWN)
    style = "stroke-linejoin:round;stroke-linecap:butt;font-family:'DejaVu Sans'"
    label = escape(words, quote=True)
    return f'<svg {rest} role="img" aria-label="{label}" style="{style}">{inner}'


def renamed(svg: str, name: str, kept: set[str]) -> str:
    """The picture with its ids made its own by `name`, but for those to be kept."""
    own = {each: f"{name}-{each}" for each in _ID.findall(svg) if each not in kept}
    for pattern in (_ID, _USE):
        svg = pattern.sub(lambda found: own.get(found[0], found[0]), svg)
    return svg


def ids_of(svg: str) -> set[str]:
    """The places a picture has."""
    return set(_ID.findall(svg))


def _slim(markup: str) -> str:
    """The same without digits that nobody sees."""
    short = _DRAWN.sub(lambda found: _shorter(found[0]), _HATCHED.sub(_dotted, markup))
    short = _PLACED.sub(_rounded, _NOTHING.sub("", re.sub(r">\s*\n\s*<", ">\n<", short)))
    return joined(_ALONE.sub(r"\1", _ALONE.sub(r"\1", short)))


def _named_if_used(markup: str) -> str:
    """The same without ids that nothing in it refers to."""
    used = set(_USE.findall(markup))
    return _NAMED.sub(lambda found: found[0] if found[1] in used else "", markup)


def usual(drawing: str) -> str:
    """A drawing of our own with what most of its marks share told once, at its root."""
    for each in _USUAL:
        drawing = drawing.replace(each, "")
    return drawing.replace("<svg ", f"<svg{''.join(_USUAL)} ", 1)


def joined(markup: str) -> str:
    """The same with neighbouring lines that look alike as one: less to read, nothing to see.

    What no page uses, the drawing's own words for programs, is left out.
    """
    return _ALIKE.sub(_join, _DATA.sub("", markup))


def _join(found: re.Match[str]) -> str:
    looks = found[2]
    if not ('fill="none"' in looks or "fill: none" in looks) or "opacity" in looks:
        return found[0]
    return f'<path d="{"".join(each.strip() for each in _DRAWN.findall(found[0]))}"{looks}/>'


def _shorter(drawn: str) -> str:
    """A path with short numbers."""
    return _LETTER.sub(r"\1", _LONG.sub(_rounded, _BLANKS.sub(" ", drawn)).strip())


def _dotted(found: re.Match[str]) -> str:
    path = _dots(found[2])
    if not path:
        return found[0]
    return f"{found[1]}{path}{found[3]};stroke-linecap:round;stroke-width:1"


@lru_cache(maxsize=8)
def _dots(drawn: str) -> str:
    """A path of dots, as short as it can be; empty if it has anything else. Sheets share theirs."""
    dots = _DOT.findall(drawn)
    if not dots or _DOT.sub("", drawn).strip():
        return ""
    return "".join(f"M{x} {y}h0" for x, y in dots)


def _rounded(found: re.Match[str]) -> str:
    return f"{float(found[0]):.2f}".rstrip("0").rstrip(".")
