"""The hooks a pack may implement, found under the entry-point group `fusewright.packs`."""

from __future__ import annotations

from collections.abc import Sequence

import pluggy

from coordination.ampacity import AmpacityBasis
from coordination.rules.card import PackCard
from coordination.rules.rule import Rule

#: Raised when a hook's meaning changes; a pack states the one it was written for.
API_VERSION = 1

GROUP = "fusewright.packs"
hookspec = pluggy.HookspecMarker("fusewright")
hookimpl = pluggy.HookimplMarker("fusewright")


@hookspec
def fusewright_pack() -> PackCard:  # type: ignore[empty-body]
    """The pack's card (required)."""


@hookspec
def fusewright_rules() -> Sequence[Rule]:  # type: ignore[empty-body]
    """The pack's rules."""


@hookspec
def fusewright_ampacity_bases() -> Sequence[AmpacityBasis]:  # type: ignore[empty-body]
    """Ways to find a conductor's continuous current that this pack brings."""
