"""The built-in packs come in by the door that all use: it, its kit, physics, and themselves."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

PLUGINS = Path(__file__).parents[2] / "plugins"
MODULES = sorted(PLUGINS.rglob("*.py"))
KIT = sorted((PLUGINS.parent / "coordination/rules/kit").glob("*.py"))
EXAMPLE = sorted((PLUGINS.parent / "fixtures/example_shop_pack/fusewright_myyard").glob("*.py"))


def imported(module: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(module.read_text("utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{module}: imports are absolute"
            yield node.module or ""


@pytest.mark.parametrize("module", [*MODULES, *EXAMPLE], ids=lambda path: path.stem)
def test_a_pack_imports_the_door_its_kit_and_physics_only(module):
    own = module.relative_to(module.parents[len(module.parents) - 1]).parts
    pack = next(part for part in own if part.startswith("fusewright_"))
    for name in imported(module):
        head = name.partition(".")[0]
        if head == "coordination":
            door = name == "coordination.rules" or f"{name}.".startswith("coordination.rules.kit.")
            assert door or name.startswith("coordination.physics"), name
        elif head.startswith("fusewright"):
            assert head == pack, name
        else:
            assert head != "catalogue", name


@pytest.mark.parametrize("module", KIT, ids=lambda path: path.stem)
def test_the_kit_imports_the_door_and_itself_only(module):
    for name in imported(module):
        inside = name == "coordination.rules" or name.startswith("coordination.rules.kit")
        assert inside or not name.startswith(("coordination", "catalogue", "fusewright")), name


def test_there_are_packs_to_look_at():
    assert len(MODULES) > 50
    assert len(EXAMPLE) > 3
    assert len(KIT) > 3
