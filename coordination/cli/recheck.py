"""`fusewright recheck`: every job below some folders checked anew and held to its seal."""

from __future__ import annotations

import gc
import json
import os
from collections.abc import Iterator
from typing import TYPE_CHECKING, NamedTuple, NoReturn

from catalogue.store import open_catalogue
from coordination.checking.local import Local, configured
from coordination.cli.guard import INTERRUPTED, tell
from coordination.cli.output import columns, emit, is_terminal
from coordination.cli.progress import Progress
from coordination.errors import BadInput, Problem
from coordination.fleet import Found, Setting, State, Tally, look, recheck
from coordination.fleet.setting import LIMIT, Order, Outcome, setting_for
from coordination.report.colour import paint_for

if TYPE_CHECKING:
    from coordination.fleet.engines import Engine


class Recheck(NamedTuple):
    """What `recheck` was asked; the fields are its options."""

    places: tuple[str, ...]
    changed_part: str = ""
    jobs: int | None = None
    engine: str = "local"
    scheduler: str | None = None
    format: str = "text"
    resume: str | None = None
    limit: float = LIMIT
    packs: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    rules_from: tuple[str, ...] = ()
    house_rules: tuple[str, ...] = ()
    catalogue: str | None = None
    width: int | None = None


def recheck_places(asked: Recheck) -> int:
    """Print a line a job and the summary; gives the exit status: 0, 1, 3, or 130 if interrupted.

    Raises BadInput: nothing to check, an unusable option or state; CatalogueError, OSError.
    """
    gc.enable()
    local = configured(os.environ) + Local(asked.rules_from, asked.house_rules)
    setting = setting_for(
        asked.catalogue, asked.packs, local, asked.without, asked.changed_part, asked.limit
    )
    # What is wrong with the catalogue is told once, not by every worker.
    open_catalogue(setting.catalogue).close()
    if asked.scheduler is not None and asked.engine != "dask":
        _refuse("--scheduler", "only dask has a scheduler", "--engine dask")
    found = look(asked.places)
    if not found.paths and not found.unreadable:
        _refuse(asked.places[0], "there is no YAML file")
    state = State(asked.resume) if asked.resume is not None else None
    try:
        return _run(asked, setting, found, state)
    finally:
        if state is not None:
            state.close()


def _run(asked: Recheck, setting: Setting, found: Found, state: State | None) -> int:
    tally = Tally(found)
    engine = _engine(asked, len(found.paths))
    progress = Progress(len(found.paths))
    try:
        _print_all(asked, setting, found, state, tally, engine, progress)
        tally.whole = True
    except KeyboardInterrupt:
        pass
    finally:
        progress.clear()
        engine.close()
    if tally.whole:
        _check_something(asked, setting, tally)
    _print_summary(asked, tally)
    if tally.whole:
        return tally.status
    again = f"; take it up again with --resume {asked.resume}" if asked.resume else ""
    tell(f"interrupted{again}")
    return INTERRUPTED


def _engine(asked: Recheck, files: int) -> Engine:
    from coordination.fleet.engines import DaskEngine, LocalEngine

    workers = asked.jobs or len(os.sched_getaffinity(0))
    if asked.engine == "dask":
        return DaskEngine(asked.scheduler, workers)
    return LocalEngine(max(1, min(workers, files)))


def _print_all(
    asked: Recheck,
    setting: Setting,
    found: Found,
    state: State | None,
    tally: Tally,
    engine: Engine,
    progress: Progress,
) -> None:
    from coordination.fleet.as_text import job_line

    paint = paint_for(is_terminal(), os.environ)
    keep = state.keep if state is not None else _let_go
    for outcome in recheck(_orders(found, state), len(found.paths), setting, engine, keep):
        path = found.paths[outcome.number]
        line = outcome.line
        if outcome.kept and state is not None and (done := state.done(path)) is not None:
            line = done.line | {"file": path}
        if tally.add(line):
            progress.clear()
            text = json.dumps({"job": line}) if asked.format == "jsonl" else job_line(line, paint)
            emit(text + "\n")
        progress.step(f"{tally.verdicts['fail']} fail")


def _orders(found: Found, state: State | None) -> Iterator[Order]:
    for number, path in enumerate(found.paths):
        done = state.done(path) if state is not None else None
        yield Order(number, path, path in found.named, done.key if done else None)


def _let_go(_: Outcome) -> None:
    """Nothing is kept of a run without a state."""


def _check_something(asked: Recheck, setting: Setting, tally: Tally) -> None:
    """Raises BadInput if no file was a job, or a part is asked for that nobody knows: a slip of
    the pen must not look like a clean sheet.
    """
    if asked.changed_part and not tally.jobs:
        with open_catalogue(setting.catalogue) as catalogue:
            if catalogue.get(asked.changed_part) is None:
                near = catalogue.near(asked.changed_part)
                what = f"no job uses a part {asked.changed_part!r}, and the catalogue has none"
                raise BadInput((Problem("--changed-part", 0, 0, what, "", near),))
    if not tally.jobs and not tally.unaffected and not tally.found.unreadable:
        what = f"there is no system file among {tally.skipped} YAML files"
        _refuse(asked.places[0], what, "files with `system:` at the top level")


def _print_summary(asked: Recheck, tally: Tally) -> None:
    from coordination.fleet.as_text import summary_text

    if asked.format == "jsonl":
        emit(json.dumps({"summary": tally.summary()}) + "\n")
    else:
        emit(summary_text(tally, columns(asked.width)))


def _refuse(where: str, what: str, allowed: str = "") -> NoReturn:
    raise BadInput((Problem(where, 0, 0, what, allowed),))
