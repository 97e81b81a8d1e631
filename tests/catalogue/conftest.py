"""The generic catalogue, its parts, and a shop's own beside it."""

from __future__ import annotations

import pytest

from catalogue.parts import Battery, Fuse
from catalogue.shop import add_parts
from catalogue.store import open_catalogue


@pytest.fixture(scope="module")
def catalogue():
    with open_catalogue(None) as found:
        yield found


@pytest.fixture(scope="module")
def every(catalogue):
    return [catalogue.get(part_id) for part_id in catalogue.ids()]


@pytest.fixture(autouse=True)
def no_catalogue_by_environment(monkeypatch):
    monkeypatch.delenv("FUSEWRIGHT_CATALOGUE", raising=False)


@pytest.fixture
def shop(tmp_path):
    path = str(tmp_path / "shop.sqlite")
    parts = [
        Fuse(id="fuse-t-300", kind="fuse", rated_current=300.0, rated_voltage=58.0),
        Fuse(id="fuse-own", kind="fuse", rated_current=7.0),
        Battery(id="bar-30x5", kind="battery", nominal_voltage=25.6),
    ]
    add_parts(path, parts)
    return path
