"""`fusewright draw`: the one-line diagram of a system, as a file or a file a sheet."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from coordination.checking import Request, findings_of
from coordination.cli.curves import FORMATS
from coordination.cli.output import emit
from coordination.cli.written import format_of, known_language, today, write_whole
from coordination.errors import BadInput, Problem
from coordination.languages.files import language
from coordination.report.wording import clean, counted

if TYPE_CHECKING:
    from coordination.diagram.drawn import Page


def draw_one_line(request: Request, output: str, code: str = "en") -> int:
    """Write the diagram; gives 0. Raises BadInput, CatalogueError, OSError."""
    ending = format_of(output, FORMATS, "a picture")
    _need(ending)
    words = language(known_language(code))
    from coordination.diagram.drawn import pages_of

    findings = findings_of(request)
    whole = ending == "pdf"
    pages = pages_of(
        findings, today(), request.condition, whole_paper=whole, words=words
    )
    written = _files(pages, output, ending)
    for name, content in written:
        write_whole(name, content)
    names = clean(written[0][0])
    if written[1:]:
        names += f" to {clean(written[-1][0])}"
    are = "are" if written[1:] else "is"
    emit(f"{names} {are} written: {counted(len(pages), 'sheet')}\n")
    return 0


def _files(pages: Sequence[Page], output: str, ending: str) -> list[tuple[str, bytes]]:
    """What to write where: one file, but of a PNG one a sheet where there are several."""
    if ending == "svg":
        from coordination.diagram.one_line import svg_file

        return [(output, svg_file(pages))]
    from coordination.diagram.picture import pdf, png

    if ending == "pdf":
        return [(output, pdf(pages))]
    if len(pages) == 1:
        return [(output, png(pages[0]))]
    path = Path(output)
    names = (str(path.with_stem(f"{path.stem}-{number}")) for number in range(1, len(pages) + 1))
    return [(name, png(page)) for name, page in zip(names, pages, strict=True)]


def _need(ending: str) -> None:
    """Raises BadInput, which says what to install, where the drawing library is missing."""
    try:
        import coordination.diagram.symbols

        if ending != "svg":
            import coordination.diagram.picture  # noqa: F401
    except ModuleNotFoundError as error:
        what = f"diagrams need {error.name}, which is not installed"
        allowed = "pip install 'fusewright[papers]'"
        raise BadInput((Problem("fusewright draw", 0, 0, what, allowed),)) from None
