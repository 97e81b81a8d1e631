"""The one-line diagram inside the page."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from coordination.papers.places import Places
from coordination.papers.svg import Picture, ids_of, joined, renamed, usual

if TYPE_CHECKING:
    from coordination.languages.language import Language
    from coordination.rules.finding import Findings


def diagram(
    findings: Findings, when: date, places: Places, words: Language
) -> list[Picture]:
    """Its sheets; a thing that stands on several is reached on the first.

    Raises ModuleNotFoundError without the drawing library.
    """
    from coordination.diagram import one_line

    pictures = []
    for number, sheet in enumerate(one_line(findings, when, links=True, words=words)):
        kept = {each for each in ids_of(sheet.svg) if places.claim(each)}
        markup = usual(joined(renamed(sheet.svg, f"sheet{number}", kept)))
        pictures.append(Picture(sheet.title, sheet.title, markup, sheet.width, sheet.height))
    return pictures
