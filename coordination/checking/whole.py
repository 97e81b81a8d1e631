"""One run through the stages, from a file to findings, as far as a command wants to go."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from coordination.checking.local import Local, LocalRules
from coordination.errors import BadInput, Problem

if TYPE_CHECKING:
    from coordination.checking.bench import Bench
    from coordination.model import System
    from coordination.reading import Catalogue
    from coordination.rules.finding import Findings
    from coordination.rules.host import PackHost
    from coordination.rules.pack import Packs
    from coordination.rules.problem import RunProblem
    from coordination.study import Study


class Request(NamedTuple):
    """What the user asked to be studied.

    packs -- beside those of the file; rules -- the only ones to run; condition -- the only one
    without -- packs left out on purpose
    local -- rules that no installed pack brings, and where they are
    lenient -- a pack to be left out need not be one of the file's: many files are asked for alike
    """

    file: str
    catalogue: str | None = None
    condition: str | None = None
    packs: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    local: Local = Local()
    lenient: bool = False

    def restrictions(self) -> tuple[str, ...]:
        """What of this makes the run differ from the file's own, in words for the report."""
        words = []
        if self.condition is not None:
            words.append(f"only condition {self.condition!r} was run")
        if self.rules:
            words.append(f"only rule {', '.join(self.rules)} was run")
        if self.packs:
            words.append(f"pack {', '.join(self.packs)} was asked for on the command line")
        if self.without:
            words.append(f"pack {', '.join(self.without)} was left out on the command line")
        words += [f"rules from {path} were added" for path in self.local.rules_from]
        words += [f"house rules from {path} were added" for path in self.local.house_rules]
        return tuple(words)


def findings_of(request: Request) -> Findings:
    """Every finding. Raises BadInput, CatalogueError: the input cannot be used."""
    system, packs = prepare(request)
    known_rules(request.rules, packs)
    return judged(request, system, packs)


def judged(request: Request, system: System, packs: Packs) -> Findings:
    """Every finding on a system, which may differ from its file. Raises BadInput: no condition."""
    from coordination.rules.judge import judge

    return judge(studies_of(request, system, packs), packs, only=request.rules)


def prepare(
    request: Request, bench: Bench | None = None, data: bytes | None = None
) -> tuple[System, Packs]:
    """The system with its packs loaded. Raises BadInput, CatalogueError.

    bench -- with catalogue and packs open already, in place of the request's own; None: open them
    data  -- the file's content, where it was read already
    """
    if bench is not None:
        return _prepared(request, bench.catalogue, bench.host, bench.local, data)
    from catalogue.store import open_catalogue
    from coordination.rules.host import PackHost

    with open_catalogue(request.catalogue) as catalogue:
        host = PackHost()
        return _prepared(request, catalogue, host, LocalRules(request.local, host.today), data)


def _prepared(
    request: Request,
    catalogue: Catalogue,
    host: PackHost,
    local: LocalRules,
    data: bytes | None,
) -> tuple[System, Packs]:
    from coordination.rules.opening import open_system

    system, packs = open_system(
        request.file,
        catalogue,
        host,
        more=request.packs,
        without=request.without,
        attach=local,
        data=data,
        lenient=request.lenient,
    )
    return system, replace(packs, problems=tuple(map(_way_out, packs.problems)))


def _way_out(problem: RunProblem) -> RunProblem:
    """A pack that could not be used, with how to go on without it on purpose."""
    if problem.kind != "pack" or not problem.incomplete:
        return problem
    way = f"to go on without it on purpose: --without-pack {problem.about}"
    return replace(problem, what=f"{problem.what} ({way})")


def studies_of(request: Request, system: System, packs: Packs) -> Mapping[str, Study]:
    """A study for every condition, or for the one asked for. Raises BadInput: no such condition."""
    from coordination.network import connect
    from coordination.study import study

    names: Iterable[str] = system.conditions
    if request.condition is not None:
        known_word("condition", request.condition, system.conditions, request.file)
        names = (request.condition,)
    basis = packs.basis(system.ampacity_basis)
    return {name: study(connect(system, name), basis) for name in names}


def known_rules(asked: Iterable[str], packs: Packs, where: str = "--rule") -> None:
    """Raises BadInput, with a near miss, for a rule that no loaded pack has.

    where -- what the message begins with: the option, or the file where there is none
    """
    full = packs.rule_names()
    short = tuple(name.partition("/")[2] for name in full)
    for name in asked:
        if name not in full and name not in short:
            known_word("rule", name, full if "/" in name else short, where)


def known_word(kind: str, word: str, known: Iterable[str], where: str) -> None:
    """Raises BadInput, with a near miss, unless `word` is one of the known ones."""
    known = tuple(known)
    if word in known:
        return
    from catalogue.near_miss import nearest

    allowed = ", ".join((*known[:_LISTED], *(["..."] if len(known) > _LISTED else [])))
    problem = Problem(where, 0, 0, f"no {kind} {word!r}", allowed, nearest(word, known))
    raise BadInput((problem,))


#: Known words that are listed in an error; more would hide it.
_LISTED = 20
