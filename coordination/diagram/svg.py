"""Writes a sheet's marks as SVG, with colours that suit a light and a dark page alike."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from coordination.diagram.ink import Disc, Group, Mark, Stroke, Words
from coordination.diagram.looks import FAINT, LOOKS, TEXT_COLOURS

#: Typefaces no wider than what the labels are laid out for.
FONTS = "Arial, Helvetica, 'Liberation Sans', 'DejaVu Sans', sans-serif"


def svg_marks(marks: Iterable[Mark]) -> str:
    """The marks as SVG elements."""
    return "".join(map(_mark, marks))


def css() -> str:
    """Rules for the elements' classes, by which a page may set `--fusewright-live` and the like."""
    rules = []
    for name, look in LOOKS.items():
        if look.colour:
            colour = f"var(--fusewright-{_property(name)}, {look.colour})"
            rules.append(f".fw-sheet .fw-{name}{{stroke:{colour}}}")
            rules.append(f".fw-sheet .fw-{name}.fw-full{{fill:{colour}}}")
            rules.append(f".fw-sheet text.fw-{name}{{fill:{colour};stroke:none}}")
    # Who knows no custom properties keeps to the attributes, instead of to no colour at all.
    known = f"@supports (color:var(--any)){{{''.join(rules)}}}"
    return f"{known}.fw-sheet a:focus{{outline:2px solid currentColor}}"


def _property(style: str) -> str:
    """Lines that are live one way or the other are of one colour."""
    return "live" if style == "fed" else style


def _mark(mark: Mark) -> str:
    if isinstance(mark, Stroke):
        return _stroke(mark)
    if isinstance(mark, Disc):
        place = f'cx="{_n(mark.x)}" cy="{_n(mark.y)}" r="{_n(mark.radius)}"'
        return f"<circle {place} {_looks(mark.style, mark.filled)}/>"
    return _words(mark) if isinstance(mark, Words) else _group(mark)


def _stroke(stroke: Stroke) -> str:
    looks = _looks(stroke.style, stroke.filled)
    if len(stroke.points) == 2:
        (x1, y1), (x2, y2) = stroke.points
        return f'<path d="M{_n(x1)} {_n(y1)}L{_n(x2)} {_n(y2)}" {looks}/>'
    path = "L".join(f"{_n(x)} {_n(y)}" for x, y in stroke.points)
    return f'<path d="M{path}{"Z" if stroke.closed else ""}" {looks}/>'


def _looks(style: str, filled: bool) -> str:
    """As attributes, which readers know that know no style sheet, with a class where it counts."""
    look = LOOKS[style]
    colour = look.colour or "currentColor"
    fill = colour if filled else "none"
    told = f'stroke="{colour}" stroke-width="{_n(look.width)}" fill="{fill}"'
    if look.dashes:
        told += f' stroke-dasharray="{" ".join(map(_n, look.dashes))}"'
    if look.colour:
        told += f' class="fw-{style}{" fw-full" if filled else ""}"'
    return told


def _words(words: Words) -> str:
    told = f'x="{_n(words.x)}" y="{_n(words.y)}" font-size="{_n(words.size)}"'
    if words.anchor != "start":
        told += f' text-anchor="{words.anchor}"'
    told += ' font-weight="bold"' if words.bold else ""
    told += ' font-style="italic"' if words.italic else ""
    if colour := TEXT_COLOURS.get(words.style):
        told += f' fill="{colour}"'
        told += f' class="fw-{words.style}"' if words.style in LOOKS else ""
    if words.style in FAINT:
        told += f' opacity="{FAINT[words.style]}"'
    return f"<text {told}>{xml(words.text)}</text>"


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
    """A length to a hundredth of a pixel, without needless digits."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
