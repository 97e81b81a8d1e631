"""The hooks a pack may implement, found under the entry-point group `fusewright.packs`.

A hook is called only for packs in use. An implementation may leave out arguments it has no use for.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import pluggy

from coordination.ampacity import AmpacityBasis
from coordination.rules.card import PackCard
from coordination.rules.rule import Rule
from coordination.rules.words import Option, PartField, Section, StandardRatings

if TYPE_CHECKING:
    from coordination.rules.finding import Findings

#: Raised when a hook's meaning changes; a pack states the one it was written for.
API_VERSION = 1

GROUP = "fusewright.packs"
hookspec = pluggy.HookspecMarker("fusewright")
hookimpl = pluggy.HookimplMarker("fusewright")


@hookspec
def fusewright_pack() -> PackCard | Sequence[PackCard]:  # type: ignore[empty-body]
    """The pack's card (required), or one for each edition that it carries."""


@hookspec
def fusewright_rules(edition: str) -> Sequence[Rule]:  # type: ignore[empty-body]
    """The pack's rules in an edition of its cards."""


@hookspec
def fusewright_ampacity_bases(  # type: ignore[empty-body]
    edition: str,
) -> Sequence[AmpacityBasis]:
    """Ways to find a conductor's continuous current that this pack brings."""


@hookspec
def fusewright_standard_ratings(  # type: ignore[empty-body]
    edition: str,
) -> Sequence[StandardRatings]:
    """Ratings of devices that the code lists."""


@hookspec
def fusewright_part_fields() -> Sequence[PartField]:  # type: ignore[empty-body]
    """Fields that the pack adds to parts; the same in every edition."""


@hookspec
def fusewright_options() -> Sequence[Option]:  # type: ignore[empty-body]
    """What the pack asks of a system file; the same in every edition."""


@hookspec
def fusewright_report_sections(  # type: ignore[empty-body]
    findings: Findings, edition: str
) -> Sequence[Section]:
    """What the pack adds to the end of a report; it changes no verdict."""
