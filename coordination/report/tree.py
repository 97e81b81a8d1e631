"""The whole derivation of a finding as a tree: every number under the one it led to."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from coordination.report.block import block, step_row
from coordination.report.colour import Paint, plain
from coordination.report.lines import NARROWEST, wrapped
from coordination.report.text import block_head
from coordination.report.view import roots
from coordination.report.wording import RELATIONS, clean
from coordination.trace import Derived, Unknown

if TYPE_CHECKING:
    from collections.abc import Sequence

    from coordination.rules.finding import Finding

#: Deeper branches are not indented further: the numbers would be pushed off the page.
DEEPEST = 12


def tree_report(findings: Sequence[Finding], file: str, width: int, paint: Paint = plain) -> str:
    """The trees of these findings, ending in a newline."""
    width = max(width, NARROWEST)
    blocks = ("\n".join(_lines(finding, file, width, paint)) for finding in findings)
    return "\n\n".join(blocks) + "\n"


def _lines(finding: Finding, file: str, width: int, paint: Paint) -> Iterator[str]:
    shown = block(finding, file, limit=0)
    yield from block_head(shown, width, paint)
    yield from wrapped(shown.because, width, "  ")
    for label, side in (("found", finding.found), (_limit(finding), finding.required)):
        if side is not None:
            yield from ("", paint("heading", f"  {label}"))
            yield from value_lines(side, width)
    if not roots(finding):
        yield from ("", "  This verdict rests on a fact of the drawing, not on a number.")
    if shown.margin:
        yield from ("", f"  margin {shown.margin}")
    yield from wrapped(f"source: {shown.source}", width, "  ", "    ")
    yield from wrapped(f"why: {finding.card.why}", width, "  ", "    ")
    if shown.cure:
        yield from wrapped(f"Do: {shown.cure}", width, "  ", "    ")


def _limit(finding: Finding) -> str:
    return f"required {RELATIONS[finding.relation]}".rstrip()


def value_lines(side: Derived | Unknown, width: int) -> Iterator[str]:
    """The derivation of one value as a tree; of an unknown one, what is missing."""
    if isinstance(side, Derived):
        yield from _node(side, width)
        return
    words = f"{side.quantity}: unknown, for want of {'; '.join(side.missing)}"
    yield from wrapped(clean(words), width, "    ", "      ")
    for known in side.known:
        yield from _node(known, width)


def _node(root: Derived, width: int) -> Iterator[str]:
    """Depth first without recursion: a derivation may be deeper than Python's stack."""
    printed: set[int] = set()
    stack = [(root, 0)]
    while stack:
        node, depth = stack.pop()
        again = id(node) in printed and bool(node.inputs)
        printed.add(id(node))
        indent = "    " + "| " * min(depth, DEEPEST)
        yield from wrapped(_words(node, again), width, indent, indent + "    ")
        if not again:
            stack.extend((child, depth + 1) for child in reversed(node.inputs))


def _words(node: Derived, again: bool) -> str:
    row = step_row(node)
    if again:
        return f"{row.name} = {row.value}  (derived above)"
    working = f" = {row.working}" if row.working else ""
    head = f"{row.name}{working} = {row.value}"
    return f"{head}  <- {row.source}" if row.source else head
