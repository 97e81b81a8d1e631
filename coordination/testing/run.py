"""Runs a system given as text through all stages, as the command does."""

from __future__ import annotations

import tempfile
from collections.abc import Collection
from functools import cache
from pathlib import Path

from catalogue.store import Catalogue, open_catalogue
from coordination.network import connect
from coordination.rules.finding import Findings
from coordination.rules.host import PackHost
from coordination.rules.judge import judge
from coordination.rules.opening import open_system
from coordination.rules.pack import Pack
from coordination.study import study
from coordination.testing.case import CaseError


def findings_of(text: str, *, packs: Collection[str] = (), only: Collection[str] = ()) -> Findings:
    """The findings for a system file's text.

    packs -- beside those the file names; only -- the rules to ask, all if empty
    Raises BadInput if the text is no usable system file.
    """
    with tempfile.TemporaryDirectory(prefix="fusewright-case-") as folder:
        file = Path(folder) / "case.yaml"
        file.write_text(text, encoding="utf-8")
        system, loaded = open_system(str(file), _catalogue(), _host(), more=tuple(packs))
    basis = loaded.basis(system.ampacity_basis)
    studies = {name: study(connect(system, name), basis) for name in system.conditions}
    return judge(studies, loaded, only=only)


def installed_pack(name: str) -> Pack:
    """The installed pack of that name, perhaps with its edition: "my_pack@2024".

    Raises CaseError, with the reason, if it cannot be loaded.
    """
    packs = _host().load([name])
    if packs.problems:
        raise CaseError("; ".join(problem.what for problem in packs.problems))
    return packs.packs[0]


@cache
def _catalogue() -> Catalogue:
    return open_catalogue(None)


@cache
def _host() -> PackHost:
    return PackHost()
