"""The examples in the docstrings of physics are true."""

from __future__ import annotations

import doctest
import importlib
import pkgutil

import pytest

import coordination.physics

MODULES = sorted(
    f"coordination.physics.{found.name}"
    for found in pkgutil.iter_modules(coordination.physics.__path__)
)


@pytest.mark.parametrize("name", MODULES)
def test_examples_hold(name):
    result = doctest.testmod(importlib.import_module(name))
    assert result.failed == 0


def test_every_topic_is_walked():
    assert {"conductors", "inductance", "batteries", "loads", "temperature", "ampacity"} <= {
        name.rsplit(".", 1)[1] for name in MODULES
    }
