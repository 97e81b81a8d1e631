"""The source records of derivation steps name what the docstrings name."""

from __future__ import annotations

import importlib
import inspect
import pkgutil

import pytest

import coordination.physics
from coordination.physics import sources
from coordination.trace import Source

NAMED = {name: value for name, value in vars(sources).items() if isinstance(value, Source)}
IMPORTED = {"COMMON_PRACTICE", "DEFINITION"}


def _source_lines():
    for found in pkgutil.iter_modules(coordination.physics.__path__):
        module = importlib.import_module(f"coordination.physics.{found.name}")
        for _, function in inspect.getmembers(module, inspect.isfunction):
            for line in (inspect.getdoc(function) or "").splitlines():
                if line.startswith("Source: "):
                    yield line.removeprefix("Source: ")


@pytest.mark.parametrize("name", sorted(set(NAMED) - IMPORTED))
def test_source_stands_in_a_docstring(name):
    document = NAMED[name].document
    lines = [line for line in _source_lines() if document in line]
    assert lines, f"no docstring names {document}"
    if not NAMED[name].read:
        assert any("from memory" in line for line in lines), lines
