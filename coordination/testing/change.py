"""Changes a system file before it is read: sets and removes fields by their path.

A path is "circuits.port feed.parts.0.distance" (list places count from 0), or begins with an
element's name where a circuit is meant: "port feed/1.distance".
"""

from __future__ import annotations

import copy
from collections.abc import Iterable, Iterator, Mapping
from typing import Any

import yaml

from coordination.testing.case import CaseError


class _Plain(yaml.SafeDumper):
    """Writes every text plain, so that the reader meets `yes` and `3 mm` as people write them."""

    yaml_implicit_resolvers: Any = {}  # noqa: RUF012

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002
        return True


def load_text(text: str) -> Any:
    """A system file as mappings, lists and texts, nothing interpreted."""
    return yaml.load(text, Loader=yaml.BaseLoader)


def dump_text(tree: Any) -> str:
    """The tree as a system file."""
    return yaml.dump(tree, Dumper=_Plain, allow_unicode=True, sort_keys=False, width=10_000)


def changed(tree: Any, changes: Mapping[str, Any], removals: Iterable[str]) -> Any:
    """A copy of the tree with the paths set and removed. Raises CaseError for a wrong path."""
    tree = copy.deepcopy(tree)
    for path, value in changes.items():
        holder, key = _holder(tree, path)
        if isinstance(holder, list) and key == len(holder):
            holder.append(value)
        else:
            holder[key] = value
    for path in removals:
        holder, key = _holder(tree, path)
        try:
            del holder[key]
        except (KeyError, IndexError):
            raise CaseError(f"nothing to remove at {path!r}") from None
    return tree


def leaves(tree: Any, path: str = "") -> Iterator[str]:
    """The path of every mapping entry and list row of the tree, outer ones first."""
    inner: Iterable[tuple[Any, Any]] = ()
    if isinstance(tree, dict):
        inner = tree.items()
    elif isinstance(tree, list):
        inner = enumerate(tree)
    for key, value in inner:
        here = f"{path}.{key}" if path else str(key)
        yield here
        yield from leaves(value, here)


def _holder(tree: Any, path: str) -> tuple[Any, Any]:
    steps = _steps(tree, path)
    for step in steps[:-1]:
        if isinstance(tree, dict):
            tree = tree.setdefault(step, {})
        else:
            try:
                tree = tree[_place(step, path)]
            except IndexError:
                raise CaseError(f"no row {step} in {path!r}") from None
    last = steps[-1]
    if isinstance(tree, list):
        place = _place(last, path)
        if place > len(tree):
            raise CaseError(f"no row {last} in {path!r}")
        return tree, place
    if not isinstance(tree, dict):
        raise CaseError(f"nothing is inside {'.'.join(steps[:-1])!r}")
    return tree, last


def _steps(tree: Any, path: str) -> list[str]:
    """The path's steps; "port feed/2.length" leads through the circuit's list of parts."""
    first, _, rest = path.partition(".")
    circuit, slash, number = first.rpartition("/")
    if slash and number.isdigit() and circuit in (tree.get("circuits") or {}):
        inside = ["circuits", circuit, "parts", str(int(number) - 1)]
        return [*inside, *rest.split(".")] if rest else inside
    return path.split(".")


def _place(step: str, path: str) -> int:
    if not step.isdigit():
        raise CaseError(f"{step!r} in {path!r} must be a list place, counted from 0")
    return int(step)
