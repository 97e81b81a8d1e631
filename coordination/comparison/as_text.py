"""A comparison in text and in markdown."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coordination.comparison.chapters import Chapter, chapters
from coordination.report.colour import Paint, plain
from coordination.report.lines import NARROWEST, labelled, wrapped
from coordination.report.tables import columns, markdown_safe, markdown_table
from coordination.report.wording import clean, counted

if TYPE_CHECKING:
    from coordination.comparison.compare import Comparison
    from coordination.comparison.side import Side

_NOTHING = "Nothing differs beyond the threshold."
_CAUTION = "A pass means that these checks passed on these inputs."


def comparison_text(
    comparison: Comparison, width: int, paint: Paint = plain, *, everything: bool = False
) -> str:
    """For a terminal, ending in a newline."""
    return "\n".join(_lines(comparison, max(width, NARROWEST), paint, everything)) + "\n"


def comparison_markdown(comparison: Comparison, *, everything: bool = False) -> str:
    """For a page, ending in a newline."""
    return "\n".join(_markdown(comparison, everything)) + "\n"


def _lines(
    comparison: Comparison, width: int, paint: Paint, everything: bool
) -> Iterator[str]:
    verdict = comparison.new.verdict
    yield from (paint(verdict, line) for line in wrapped(_headline(comparison), width, "", "  "))
    yield from labelled(_head(comparison), width, "  ")
    told = list(chapters(comparison, everything=everything))
    for chapter in told:
        yield from ("", paint("heading", chapter.title))
        if chapter.rows:
            yield from columns(chapter.rows, chapter.headers, chapter.align, width)
        if chapter.left:
            yield f"and {chapter.left} more (--all)"
        for line in chapter.lines:
            yield from wrapped(line, width, "  - ", "    ")
    if not told:
        yield from ("", _NOTHING)
    yield from ("", *wrapped(_CAUTION, width))


def _headline(comparison: Comparison) -> str:
    """ "2 new fails, 1 newly unproven; verdict pass then, fail now"."""
    counts = [counted(len(comparison.of("new fail")), "new fail")]
    counts += [
        f"{len(comparison.of(how))} {how}"
        for how in ("newly unproven", "cured", "settled", "eroded", "improved")
    ]
    return f"{', '.join(counts)}: {comparison.old.verdict} then, {comparison.new.verdict} now"


def _head(comparison: Comparison) -> list[tuple[str, str]]:
    rows = [("then", _side(comparison.old)), ("now", _side(comparison.new))]
    missing = [
        what
        for what, there in (
            ("currents", comparison.currents),
            ("the drawing", comparison.things),
            ("what parts state", comparison.parts),
        )
        if there is None
    ]
    if missing:
        rows.append(("not held", f"{', '.join(missing)}: one side does not keep them"))
    rows.append(("told from", f"{comparison.threshold * 100:.3g} % of a margin or current on"))
    return rows


def _side(side: Side) -> str:
    return clean(", ".join(filter(None, (side.system, side.file, side.label))))


def _markdown(comparison: Comparison, everything: bool) -> Iterator[str]:
    yield from (f"# {markdown_safe(_headline(comparison))}", "")
    yield from (f"- {label}: {markdown_safe(text)}" for label, text in _head(comparison))
    told = list(chapters(comparison, everything=everything))
    for chapter in told:
        yield from ("", f"## {markdown_safe(chapter.title)}", "")
        yield from _chapter(chapter)
    if not told:
        yield from ("", _NOTHING)
    yield from ("", _CAUTION)


def _chapter(chapter: Chapter) -> Iterator[str]:
    if chapter.rows:
        yield markdown_table(chapter.rows, chapter.headers, chapter.align)
    if chapter.left:
        yield from ("", f"and {chapter.left} more")
    if chapter.lines:
        yield ""
    yield from (f"- {markdown_safe(line)}" for line in chapter.lines)
