"""Rules from a plain Python file that the user named: no packaging, otherwise a pack like any.

Code is loaded from here only because the command line or the user's own configuration says so.
"""

from __future__ import annotations

import sys
from pathlib import Path
from types import ModuleType
from typing import Any

from coordination.errors import BadInput, Problem
from coordination.rules import hookcheck, inspection, loading
from coordination.rules.calls import MisdeedError, guarded
from coordination.rules.card import UNDATED, PackCard
from coordination.rules.hooks import API_VERSION
from coordination.rules.pack import Pack
from coordination.rules.problem import RunProblem
from coordination.rules.refused import PackRefusedError
from coordination.rules.rule import Rule


def pack_from_file(path: str, today: str) -> Pack | RunProblem:
    """The rules in the file as a pack named after it; a problem if they cannot be used.

    A file with hooks is held to them as an installed pack is. Raises BadInput: no such file.
    """
    name = Path(path).stem.lower().replace("-", "_")
    try:
        source = Path(path).read_bytes()
    except OSError as error:
        reason = (error.strerror or str(error)).lower()
        problem = Problem(path, 0, 0, f"the file of rules cannot be read: {reason}")
        raise BadInput((problem,)) from error
    try:
        with guarded(loading.LIMIT, errors=False) as calls:
            return calls(_pack, name, path, source, today)
    except MisdeedError as misdeed:
        return loading.problem(name, misdeed)


def _pack(name: str, path: str, source: bytes, today: str) -> Pack:
    if not inspection.is_word(name):
        raise PackRefusedError(f"{path}: the file's name must be words_with_underscores")
    module = _module(name, path, source)
    if tuple(hookcheck.hook_names(module)):
        plugin = loading.admit(name, module)
        return loading.pack_of(plugin, loading.edition_of(plugin, None, today))
    # A name bound twice is one rule; two rules of one name are a mistake that is told.
    rules = {id(each): each for each in vars(module).values() if isinstance(each, Rule)}
    if not rules:
        raise PackRefusedError(f"{path} holds no rule: a function under @rule(CARD, each=...)")
    return loading.finished(Pack(_card(name, path), tuple(rules.values()), editions=(_EDITION,)))


_EDITION = "as in the file"


def _module(name: str, path: str, source: bytes) -> ModuleType:
    """The file run as a module; nothing is written beside it."""
    module = ModuleType(f"fusewright_rules_from.{name}")
    module.__file__ = path
    sys.modules[module.__name__] = module
    code: Any = compile(source, path, "exec")
    exec(code, module.__dict__)
    return module


def _card(name: str, path: str) -> PackCard:
    return PackCard(
        name=name,
        title=f"Rules from {path}",
        api=API_VERSION,
        version="0",
        edition=_EDITION,
        in_force=UNDATED,
        scope="whatever its author works on",
        not_covered=("anything its author did not write down",),
        jurisdiction="whoever named the file",
        status="practice",
    )
