"""What the commands of `fusewright parts` take: their options and arguments, with help."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Annotated

import typer

if TYPE_CHECKING:
    from catalogue.parts import Part
    from catalogue.store import Catalogue

CataloguePath = Annotated[
    str | None,
    typer.Option(
        "--catalogue",
        metavar="PATH",
        help="The shop's own catalogue (or set FUSEWRIGHT_CATALOGUE).",
    ),
]
Kind = Annotated[
    str | None, typer.Option("--kind", metavar="KIND", help="fuse, breaker, cable, busbar ...")
]
Replace = Annotated[bool, typer.Option("--replace", help="Replace parts of the same id.")]
By = Annotated[
    str | None, typer.Option("--by", metavar="NAME", help="Who changes it (or FUSEWRIGHT_BY).")
]
Why = Annotated[str | None, typer.Option("--why", metavar="TEXT", help="The reason.")]

#: Ids that a shell offers at once.
_OFFERED = 200


def ids_beginning(context: typer.Context, incomplete: str) -> Iterator[str]:
    """The ids of parts that begin so, for a shell; none where there is no catalogue to ask."""
    from catalogue.errors import CatalogueError
    from catalogue.finding.by_id import ids_from
    from catalogue.store import open_catalogue

    named = context.params.get("catalogue")
    try:
        with open_catalogue(named if isinstance(named, str) else None) as parts:
            yield from ids_from(parts, incomplete, _OFFERED)
    except CatalogueError:
        return


PartId = Annotated[
    str, typer.Argument(metavar="ID", help="The part's id.", autocompletion=ids_beginning)
]
PartIds = Annotated[
    list[str] | None,
    typer.Argument(
        metavar="[ID ...]", help="These parts; else all.", autocompletion=ids_beginning
    ),
]


def known_kind(kind: str | None) -> str | None:
    """The kind, if it is one. Raises CatalogueError."""
    from catalogue.errors import CatalogueError
    from catalogue.near_miss import hint_of
    from catalogue.parts import KINDS

    if kind is not None and kind not in KINDS:
        hint = hint_of(kind, KINDS) or f"kinds are {', '.join(KINDS)}"
        raise CatalogueError(f"{kind[:40]!r} is no kind of part; {hint}")
    return kind


def known_part(parts: Catalogue, part_id: str) -> Part:
    """The part of that id. Raises CatalogueError with a near miss."""
    from catalogue.errors import CatalogueError

    found = parts.get(part_id)
    if found is None:
        near = parts.near(part_id)
        hint = f"; did you mean {near!r}?" if near else ""
        raise CatalogueError(f"there is no part {part_id[:100]!r} in {parts.describe()}{hint}")
    return found
