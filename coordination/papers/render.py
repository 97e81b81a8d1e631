"""The page's templates and its style: all text is escaped, and a word that lacks is an error."""

from __future__ import annotations

import re
from importlib.resources import files
from typing import Any

from coordination import __version__

_UNIT = re.compile(r"(?<=\d) (?=[A-Za-zµΩ%°][A-Za-zµΩ²/·]{0,3}(?![a-z]))")
_FOLDER = files("coordination.papers") / "templates"


def rendered(page: Any, words: Any) -> str:
    """The page as HTML. Raises ModuleNotFoundError without Jinja2."""
    from jinja2 import Environment, FunctionLoader, StrictUndefined

    from coordination.papers.compiled import Compiled

    environment = Environment(
        loader=FunctionLoader(_text),
        autoescape=True,
        trim_blocks=True,
        lstrip_blocks=True,
        undefined=StrictUndefined,
        auto_reload=False,
        bytecode_cache=Compiled(),
    )
    environment.filters["capitalize_first"] = _capital
    environment.filters["whole"] = whole
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


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
