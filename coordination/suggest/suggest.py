"""From a verdict to its cure: looks for the smallest changes, and checks the text they would make.

No answer is given that a whole check of the changed text has not confirmed.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from coordination.checking import Request, known_word, prepare
from coordination.errors import BadInput, Problem
from coordination.reading.lookups import DEFAULT_PLACE
from coordination.reading.own_parts import own_parts
from coordination.reading.read import read_bytes
from coordination.reading.text import read_file
from coordination.suggest.answer import Answer, Bounds, Cure, Pair, Wanted
from coordination.suggest.change import Changes, in_order
from coordination.suggest.conflict import Conflicts
from coordination.suggest.document import CannotEdit, Document
from coordination.suggest.editing import edited_text
from coordination.suggest.judging import BADNESS, Bench, Key, Limit
from coordination.suggest.moves import Moves
from coordination.suggest.search import Search
from coordination.suggest.shelf import Shelf
from coordination.suggest.whole import Mending

if TYPE_CHECKING:
    from catalogue.store import Catalogue
    from coordination.model import System
    from coordination.rules.finding import Finding, Findings
    from coordination.rules.pack import Packs

#: Cures that are told of a search: the first of many that are as good.
MOST_TOLD = 5


def suggest(request: Request, subject: str | None, bounds: Bounds) -> Answer:
    """The smallest changes that cure a subject, or a whole system.

    Raises BadInput: no such subject, a file that cannot be used; CatalogueError.
    """
    from catalogue.store import open_catalogue

    data = read_file(request.file)
    system, packs = prepare(request)
    with open_catalogue(request.catalogue) as catalogue:
        again = _Reading(request.file, catalogue, packs, system)
        system = again.read(data)
        document = Document(data, request.file)
        places = {
            name: system.places[place] if place else DEFAULT_PLACE
            for name, place in document.circuits()
        }
        limit = Limit(bounds.judged, bounds.seconds)
        bench = Bench(request, system, packs, places, limit)
        own = own_parts(data, request.file, catalogue, again.words)
        moves = Moves(bench, document, Shelf(own, catalogue), bounds.shorten)
        return _Suggesting(bench, moves, document, again, bounds).answer(subject)


class _Reading:
    """Reads a changed text as the file itself was read."""

    def __init__(self, file: str, catalogue: Catalogue, packs: Packs, system: System) -> None:
        from coordination.rules.vocabulary import vocabulary

        self.file, self._catalogue, self._packs = file, catalogue, system.packs
        self.words = vocabulary(packs, system.packs)

    def read(self, data: bytes) -> System:
        """The system in it. Raises BadInput."""
        system = read_bytes(data, self.file, self._catalogue, lambda _: self.words)
        return replace(system, packs=self._packs)


class _Suggesting:
    """One question being answered."""

    def __init__(
        self, bench: Bench, moves: Moves, document: Document, reading: _Reading, bounds: Bounds
    ) -> None:
        self.bench, self.moves, self.document = bench, moves, document
        self.reading, self.bounds = reading, bounds

    def answer(self, subject: str | None) -> Answer:
        findings = self.bench.base.findings
        if subject is not None:
            known_word("subject", subject, _names(self.bench.system), self.bench.request.file)
        about = [each for each in findings if subject in (None, each.subject)]
        if subject is not None and not about:
            what = f"no rule of the packs in use concerns {subject!r}: there is no verdict"
            raise BadInput((Problem(self.bench.request.file, 0, 0, what),))
        targets = tuple(each for each in about if each.verdict == "fail")
        keys = frozenset((each.rule, each.subject) for each in targets)
        unproven = tuple(each for each in about if each.verdict == "unproven")
        make = self._whole if subject is None else self._one
        return make(
            Answer(
                system=self.bench.system, document=self.document, before=self.bench.base,
                subject=subject, targets=targets, unproven=unproven, cures=(), conflict=None,
                bounds=self.bounds, exhausted=True, judged=0, wanted=(), refused={},
            ),
            keys,
        )  # fmt: skip

    def _one(self, answer: Answer, keys: Collection[Key]) -> Answer:
        if not keys:
            return answer
        search = Search(self.bench, self.moves, keys)
        found = search.run(self.bounds.changes)
        cures = self._confirmed(found.cures, keys)
        conflict = None
        if not cures:
            conflict = Conflicts(self.bench, self.moves, keys, self.bounds.changes).explain(found)
        done = replace(answer, cures=cures, conflict=conflict, exhausted=found.exhausted)
        return self._told(done, keys)

    def _whole(self, answer: Answer, keys: Collection[Key]) -> Answer:
        if not keys:
            return answer
        mended = Mending(self.bench, self.moves, self.bounds.changes).run(keys)
        cures = self._confirmed((mended.changes,), mended.mended) if mended.changes else ()
        done = replace(answer, cures=cures, exhausted=mended.exhausted)
        return self._told(done, mended.left)

    def _told(self, answer: Answer, unsolved: Iterable[Key]) -> Answer:
        subjects = {subject for _, subject in unsolved}
        return replace(
            answer,
            judged=self.bench.limit.judged,
            wanted=tuple(self._wanted(subjects)),
            refused=dict(self.moves.refused),
        )

    def _wanted(self, subjects: Collection[str]) -> Iterable[Wanted]:
        """Places of unsolved fails for which no part qualifies."""
        elements = {each.name: each for each in self.bench.system.elements()}
        things = {**elements, **self.bench.system.busbars}
        for name in sorted(subjects):
            choice = self.moves.choices.get(name)
            if name in things and choice is not None and not choice.parts:
                yield Wanted(name, self.moves.needs(things[name]), choice)

    def _confirmed(self, sets: Sequence[Changes], keys: Collection[Key]) -> tuple[Cure, ...]:
        """The first of the sets whose text, checked whole, cures what it should."""
        cures: list[Cure] = []
        for changes in sets:
            cure = self._cure(changes, keys)
            if cure is not None:
                cures.append(cure)
            if len(cures) == MOST_TOLD:
                break
        return tuple(cures)

    def _cure(self, changes: Changes, keys: Collection[Key]) -> Cure | None:
        try:
            text = edited_text(self.document, self.bench.system, changes)
        except CannotEdit:
            return None
        after = self.bench.whole(self.reading.read(self.document.bytes_of(text)))
        names = self.bench.edited(changes)
        if any(self.bench.among(after.findings, names, keys)):
            return None
        compared = _Compared(self.bench.base, after, names.names)
        if compared.gone(self._beyond(changes)):
            return None
        return Cure(
            changes=in_order(changes),
            fixed=compared.fixed(),
            eroded=compared.eroded(),
            shown=tuple(each for each in after.findings if each.subject in names.added),
            left=tuple(each for each in after.findings if each.verdict == "fail"),
            text=text,
            after=after,
        )


    def _beyond(self, changes: Changes) -> set[Key]:
        """Findings of rules that are not asked about a kind of device that now stands there."""
        kinds = {each.name: each.kind for each in self.bench.system.elements()}
        now = {
            each.subject: each.part.kind
            for each in changes
            if each.sort == "part" and each.part is not None and each.subject in kinds
            and each.part.kind != kinds[each.subject]
        }  # fmt: skip
        return {
            (pack.full_name(rule), subject)
            for pack, rule in self.bench.packs.rules()
            for subject, kind in now.items()
            if not {kind, "device", "element"} & set(rule.each)
        }


class _Compared:
    """Findings before and after, by rule and subject as it was named before."""

    def __init__(self, before: Findings, after: Findings, names: object) -> None:
        assert isinstance(names, dict)
        self.before = {(each.rule, each.subject): each for each in before.findings}
        self.after = {
            (each.rule, names.get(each.subject, each.subject)): each for each in after.findings
        }

    def gone(self, beyond: Collection[Key]) -> bool:
        """Whether a finding has vanished, other than those that are beyond their rule now."""
        return any(key not in self.after and key not in beyond for key in self.before)

    def fixed(self) -> tuple[Pair, ...]:
        """Fails that are none any more."""
        return self._pairs(
            lambda old, new: BADNESS[old.verdict] == _FAIL and (not new or not BADNESS[new.verdict])
        )

    def eroded(self) -> tuple[Pair, ...]:
        """Passes whose margin is smaller than it was, the greatest loss first."""
        pairs = self._pairs(lambda old, new: _loss(old, new) > _NOTABLE)
        return tuple(sorted(pairs, key=lambda pair: -_loss(pair.before, pair.after)))

    def _pairs(self, take: Callable[[Finding, Finding | None], bool]) -> tuple[Pair, ...]:
        return tuple(
            Pair(old, self.after.get(key))
            for key, old in self.before.items()
            if take(old, self.after.get(key))
        )


_FAIL = BADNESS["fail"]
#: Losses of margin up to this share are not told.
_NOTABLE = 0.005


def _loss(old: Finding | None, new: Finding | None) -> float:
    """Share of its margin that a finding has lost, where both have one and neither fails anew."""
    if old is None or new is None or not old.margin or new.margin is None:
        return 0.0
    return 1 - new.margin / old.margin


def _names(system: System) -> tuple[str, ...]:
    """Everything that may be changed or cured."""
    groups = (system.sources, system.busbars, system.equipment, system.converters)
    named = (name for group in groups for name in group)
    return (*(element.name for element in system.elements()), *named)
