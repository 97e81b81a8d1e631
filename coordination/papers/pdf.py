"""The page as PDF. The only module that knows the program that sets it; it is an extra, `pdf`."""

from __future__ import annotations

import re
from base64 import b64encode
from typing import Any

from weasyprint import HTML
from weasyprint.urls import URLFetcher

#: A drawing of the page, with its label.
_PICTURE = re.compile(r'<svg\b(?P<root>[^>]*)>(?P<inner>.*?)</svg>', re.DOTALL)
_LABEL = re.compile(r'\saria-label="([^"]*)"')
_OWN_WORD = re.compile(r"var\(--[\w-]+,\s*([^()]+)\)")
_SPACES = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
_NAMED = re.compile(r'\sxmlns(:xlink)?="[^"]*"')


class _Nothing(URLFetcher):  # type: ignore[misc]
    """Fetches nothing but what the page itself carries."""

    def fetch(self, url: str, headers: Any = None) -> Any:
        if not url.startswith("data:"):
            raise ValueError(f"the page asks for {url[:80]}")
        return super().fetch(url, headers)


def printed(page: str) -> bytes:
    """The page as PDF, with page numbers, repeated heads of tables, and bookmarks."""
    document = HTML(string=_PICTURE.sub(_apart, page), url_fetcher=_Nothing(), media_type="print")
    return bytes(document.write_pdf())


def _apart(found: re.Match[str]) -> str:
    """A drawing as a picture of its own, so that the page's style is not asked for each line."""
    root = _NAMED.sub("", found["root"])
    label = _LABEL.search(root)
    words = label[1] if label else ""
    # Within HTML an entity stands for itself; in XML the same five are known.
    # What sets PDF does not know a style sheet's own words within a drawing: their default stands.
    inner = _OWN_WORD.sub(r"\1", found["inner"])
    svg = f"<svg {_SPACES} {root}>{inner}</svg>"
    data = b64encode(svg.encode("utf-8")).decode("ascii")
    return f'<img class="picture" alt="{words}" src="data:image/svg+xml;base64,{data}">'
