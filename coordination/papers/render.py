"""The page's templates and its style: all text is escaped, and a word that lacks is an error."""

from __future__ import annotations

import re
from importlib.resources import files
from typing import Any

from coordination import __version__
from coordination.languages.language import CLOSE, OPEN, plain

_UNIT = re.compile(r"(?<=\d) (?=[A-Za-zµΩ%°][A-Za-zµΩ²/·]{0,3}(?![a-z]))")
_FOLDER = files("coordination.papers") / "templates"


def rendered(page: Any, words: Any) -> str:
    """The page as HTML. Raises ModuleNotFoundError without Jinja2."""
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    from coordination.papers.compiled import Compiled

    english = words.code == "en"
    environment = Environment(
        loader=FunctionLoader(_text),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
        auto_reload=False,
        bytecode_cache=Compiled("" if english else "marked-"),
        finalize=None if english else marked,
    )
    environment.filters["capitalize_first"] = _capital
    environment.filters["whole"] = whole
    environment.filters["plain"] = plain
    environment.globals["t"] = words
    template = environment.get_template("page.html.j2")
    return template.render(p=page, t=words, style=style(), version=__version__)


def style() -> str:
    """The style sheet, as it stands on the page."""
    return _text("style.css")


def _text(name: str) -> str:
    return (_FOLDER / name).read_text(encoding="utf-8")


def whole(text: str) -> str:
    """The text with blanks that no line breaks at between a number and its unit."""
    return _UNIT.sub("\u00a0", text)


def marked(value: Any) -> Any:
    """Text as markup where a part of it is English on a page of another language."""
    if not isinstance(value, str) or hasattr(value, "__html__") or OPEN not in value:
        return value
    from markupsafe import Markup, escape

    return Markup(str(escape(value)).replace(OPEN, '<span lang="en">').replace(CLOSE, "</span>"))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
