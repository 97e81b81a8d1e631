"""Writes a sheet's marks as SVG, with colours that suit a light and a dark page alike."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from coordination.diagram.ink import Disc, Group, Mark, Stroke, Words

#: Style to its stroke: colour and width. A page may set the properties; what stands behind them
#: can be told from white and from black alike. `currentColor` is the page's text colour.
STROKES = {
    "live": ("var(--fusewright-live, #c2571a)", 1.3),
    "fed": ("var(--fusewright-live, #c2571a)", 1.5),
    "wire": ("currentColor", 1.5),
    "symbol": ("currentColor", 1.3),
    "bar": ("currentColor", 1.0),
    "frame": ("currentColor", 1.0),
    "fail": ("var(--fusewright-fail, #d93025)", 1.4),
    "unproven": ("var(--fusewright-unproven, #8f6f00)", 1.8),
    "waived": ("var(--fusewright-waived, #3d74c7)", 1.8),
    "paper": ("currentColor", 1.2),
}
#: Long dashes: what only a charger or a converter keeps live.
DASHES = "9 3"
#: Typefaces no wider than what the labels are laid out for.
FONTS = "Arial, Helvetica, 'Liberation Sans', 'DejaVu Sans', sans-serif"


def svg_marks(marks: Iterable[Mark]) -> str:
    """The marks as SVG elements."""
    return "".join(map(_mark, marks))


def css() -> str:
    """The rules that the elements' classes stand for."""
    strokes = "".join(
        f".fw-{name}{{stroke:{colour};stroke-width:{width};fill:none}}"
        f".fw-{name}.fw-full{{fill:{colour}}}"
        for name, (colour, width) in STROKES.items()
    )
    strokes += f".fw-fed{{stroke-dasharray:{DASHES}}}"
    words = (
        f".fw-sheet text{{font-family:{FONTS};fill:currentColor;stroke:none}}"
        ".fw-sheet text.fw-on-fail{fill:#fff}"
        f".fw-sheet text.fw-unproven{{fill:{STROKES['unproven'][0]}}}"
        f".fw-sheet text.fw-waived{{fill:{STROKES['waived'][0]}}}"
        ".fw-sheet a:focus{outline:2px solid currentColor}"
    )
    return strokes + words


def _mark(mark: Mark) -> str:
    if isinstance(mark, Stroke):
        return _stroke(mark)
    if isinstance(mark, Disc):
        place = f'cx="{_n(mark.x)}" cy="{_n(mark.y)}" r="{_n(mark.radius)}"'
        return f"<circle {place} {_looks(mark.style, mark.filled)}/>"
    if isinstance(mark, Words):
        return _words(mark)
    return _group(mark)


def _stroke(stroke: Stroke) -> str:
    looks = _looks(stroke.style, stroke.filled)
    if len(stroke.points) == 2:
        (x1, y1), (x2, y2) = stroke.points
        return f'<path d="M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}" {looks}/>'
    path = "L".join(f"{_n(x)} {_n(y)}" for x, y in stroke.points)
    return f'<path d="M{path}{"Z" if stroke.closed else ""}" {looks}/>'


def _looks(style: str, filled: bool) -> str:
    """Class, and for readers that know no style sheet the same as attributes."""
    colour, width = STROKES[style]
    plain = colour.removeprefix("var(").partition(", ")[2].rstrip(")") or colour
    fill = plain if filled else "none"
    name = f"fw-{style} fw-full" if filled else f"fw-{style}"
    dashes = f' stroke-dasharray="{DASHES}"' if style == "fed" else ""
    return f'class="{name}" stroke="{plain}" stroke-width="{width}" fill="{fill}"{dashes}'


def _words(words: Words) -> str:
    size, anchor = f' font-size="{_n(words.size)}"', words.anchor
    more = f' text-anchor="{anchor}"' if anchor != "start" else ""
    more += ' font-weight="bold"' if words.bold else ""
    more += ' font-style="italic"' if words.italic else ""
    more += _INK.get(words.style, "")
    place = f'x="{_n(words.x)}" y="{_n(words.y)}"'
    return f"<text {place}{size}{more}>{xml(words.text)}</text>"


_INK = {
    "on fail": ' class="fw-on-fail" fill="#fff"',
    "unproven": ' class="fw-unproven" fill="#8f6f00"',
    "waived": ' class="fw-waived" fill="#3d74c7"',
    "circuit": ' class="fw-circuit" opacity="0.8"',
}


def _group(group: Group) -> str:
    attributes = f' id="{group.ids}"' if group.ids else ""
    attributes += "".join(f' data-{name}="{xml(value)}"' for name, value in group.data)
    title = f"<title>{xml(group.title)}</title>" if group.title else ""
    inner = f"<g{attributes}>{title}{svg_marks(group.marks)}</g>"
    return f'<a href="{xml(group.href)}">{inner}</a>' if group.href else inner


def xml(text: str) -> str:
    """The text, harmless in elements and attributes; what XML cannot hold is left out."""
    return escape("".join(sign for sign in text if _allowed(sign)), quote=True)


def _allowed(sign: str) -> bool:
    code = ord(sign)
    if code < 32:
        return sign in "\t\n\r"
    return not (0x7F <= code < 0xA0 or 0xD800 <= code < 0xE000 or code in (0xFFFE, 0xFFFF))


def _n(value: float) -> str:
    """A length, to a tenth of a thousandth of an inch, without needless digits."""
    return f"{value:.2f}".rstrip("0").rstrip(".").replace("-0", "-0") or "0"
