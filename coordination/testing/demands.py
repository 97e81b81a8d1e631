"""What every pack owes its users: complete cards, and cases on both sides of every limit."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path

from coordination.rules.pack import Pack
from coordination.testing.case import Case

_WITHOUT_CLAUSE = ("common practice", "definition")
_RULE = re.compile(r"^\s*@\w*rule\(", re.MULTILINE)
_YEAR = re.compile(r"\b(19|20)\d\d\b")


def lacking_in_cards(pack: Pack) -> Iterator[str]:
    """Rules whose source names neither a clause with its year, nor common practice; rules by a
    clause that was not read whose fail is more than paperwork, unless physics demands it.

    Empty fields and names used twice already keep a pack from being loaded.
    """
    for rule in pack.rules:
        source = rule.card.source
        if not source.read and rule.card.basis != "physics" and rule.card.severity != "paperwork":
            yield f"{rule.card.name}: its clause was not read, so its severity is paperwork"
        if source.document in _WITHOUT_CLAUSE:
            continue
        if not source.clause or not _YEAR.search(source.document):
            yield f"{rule.card.name}: its source needs a clause and a year: {source}"


def lacking_in_cases(pack: Pack, cases: Iterable[Case]) -> Iterator[str]:
    """Kinds of case that a rule lacks: pass, fail, just inside, just outside, unproven."""
    have: dict[str, set[str]] = {pack.full_name(rule): set() for rule in pack.rules}
    for case in cases:
        if case.rule not in have:
            yield f"{case.file.name}: there is no rule {case.rule}"
            continue
        have[case.rule] |= {expected.verdict for expected in case.expected}
        have[case.rule] |= {case.edge} if case.edge else set()
    for rule, kinds in have.items():
        for kind in ("pass", "fail", "unproven", "inside", "outside"):
            if kind not in kinds:
                yield f"{rule}: no case {kind}"


def unregistered(pack: Pack, folder: str | Path) -> Iterator[str]:
    """Modules of the pack's folder that write a rule which the pack does not bring, and rules
    without a module of their name.

    A module writes a rule if it holds a decorator whose name ends in `rule`.
    """
    written = {
        file.stem.replace("_", "-")
        for file in Path(folder).glob("*.py")
        if _RULE.search(file.read_text("utf-8"))
    }
    brought = {rule.card.name for rule in pack.rules}
    for name in sorted(written ^ brought):
        yield f"{name}: {'not brought by the pack' if name in written else 'no module so named'}"
