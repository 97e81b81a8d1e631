"""`fusewright parts`: what becomes of parts, and what they were: log, diff, as-of, review ...

Only arguments and printing; `catalogue.reviews` and `catalogue.history` do the work.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Annotated, Any

import typer

from coordination.cli.guard import run
from coordination.cli.part_options import Debug, HistoryFormat, Printed
from coordination.cli.parts_options import By, CataloguePath, Kind, PartId, Why, known_kind

if TYPE_CHECKING:
    from catalogue.store import Store


def log(
    part: PartId,
    printed: Printed = HistoryFormat.text,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Tell every state a part was in: when, by whom, why, and what changed."""

    def action() -> int:
        from catalogue.history import revisions_of
        from coordination.cli.history_text import as_json, log_text
        from coordination.cli.output import emit

        with _store(catalogue) as store:
            entries = revisions_of(store, part)
        json = printed is HistoryFormat.json
        emit(as_json("log", entries) if json else log_text(entries))
        return 0

    run(action, debug)


def diff(
    part: PartId,
    first: Annotated[
        int | None, typer.Argument(metavar="[N]", min=1, help="A revision (default: last but one).")
    ] = None,
    second: Annotated[
        int | None, typer.Argument(metavar="[M]", min=1, help="Another (default: the last).")
    ] = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Tell which fields two revisions of a part do not share; status 1 if they differ."""

    def action() -> int:
        from catalogue.history import differences, revisions_of
        from coordination.cli.history_text import diff_text, picked
        from coordination.cli.output import emit

        with _store(catalogue) as store:
            entries = revisions_of(store, part)
        before, after = picked(entries, first, second)
        found = differences(before.part if before else None, after.part)
        emit(diff_text(before, after, found))
        return 1 if found else 0

    run(action, debug)


def as_of(
    date: Annotated[
        str, typer.Argument(metavar="DATE", help="2026-03-02: the end of that day, UTC; or a time.")
    ],
    part: Annotated[
        str | None, typer.Argument(metavar="[ID]", help="One part only, with all it stated.")
    ] = None,
    kind: Kind = None,
    printed: Printed = HistoryFormat.text,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Tell what the shop's catalogue said on a day."""

    def action() -> int:
        from catalogue.history import beginning, moment_of, parts_as_of
        from coordination.cli.history_text import as_json, as_of_text
        from coordination.cli.output import emit

        at = moment_of(date)
        with _store(catalogue) as store:
            found = tuple(parts_as_of(store, at, part))
            begins = beginning(store)
        if kind is not None:
            wanted = known_kind(kind)
            found = tuple(each for each in found if each.part and each.part.kind == wanted)
        if printed is HistoryFormat.json:
            emit(as_json("as-of", found, at=at, history_begins=begins))
        else:
            emit(as_of_text(found, at, begins, whole=part is not None))
        return 0 if found else 1

    run(action, debug)


def review(
    part: PartId,
    by: By = None,
    why: Why = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Mark a part as reviewed: by another than who entered its figures."""

    def action() -> int:
        from catalogue.reviews import review as mark

        made = mark(_own(catalogue), part, _change(by, why), _tell())
        return _say(f"{part} is reviewed by {made.reviewed_by}")

    run(action, debug)


def retire(
    part: PartId,
    successor: Annotated[
        str | None, typer.Option("--successor", metavar="ID", help="The part in its place.")
    ] = None,
    without_successor: Annotated[
        bool, typer.Option("--without-successor", help="No part takes its place.")
    ] = False,
    by: By = None,
    why: Why = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Mark a part as not to be used any more, with the reason and its successor."""
    if (successor is None) != without_successor:
        raise typer.BadParameter("--successor ID, or --without-successor")

    def action() -> int:
        from catalogue.reviews import retire as mark

        mark(_own(catalogue), part, successor, _change(by, why), _tell())
        return _say(f"{part} is retired" + (f"; its successor is {successor}" if successor else ""))

    run(action, debug)


def remove(
    part: PartId,
    by: By = None,
    why: Why = None,
    catalogue: CataloguePath = None,
    debug: Debug = False,
) -> None:
    """Take a part out of the shop's catalogue; its history stays."""

    def action() -> int:
        from catalogue.reviews import remove as take_out

        take_out(_own(catalogue), part, _change(by, why), _tell())
        return _say(f"{part} is removed; its history stays")

    run(action, debug)


COMMANDS: tuple[Callable[..., None], ...] = (log, diff, as_of, review, retire, remove)


def _own(catalogue: str | None) -> str:
    from catalogue.shop import own_path

    return own_path(catalogue)


def _store(catalogue: str | None) -> Store:
    """The shop's catalogue, for reading. Raises CatalogueError."""
    from catalogue.errors import CatalogueError
    from catalogue.store import VARIABLE, Store, shop_path

    path = shop_path(catalogue)
    if path is None:
        what = "generic parts have no history: name a catalogue with --catalogue PATH or"
        raise CatalogueError(f"{what} the variable {VARIABLE}")
    return Store(path, "shop")


def _change(by: str | None, why: str | None) -> Any:
    from catalogue.changes import change_by

    return change_by(by, why)


def _tell() -> Callable[[str], None]:
    from coordination.cli.guard import tell

    return tell


def _say(words: str) -> int:
    from coordination.cli.output import emit
    from coordination.report.wording import clean

    emit(f"{clean(words)}\n")
    return 0
