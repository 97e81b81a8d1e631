"""Changes a system file before it is read: sets and removes fields by their path.

A path is "circuits.port feed.parts.0.distance" (list places count from 0), or begins with an
element's place where a circuit is meant: "port feed/1.distance". A name with a dot in it is found
where it exists; a path may also be given as its steps.
"""

from __future__ import annotations

import copy
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

import yaml

from coordination.testing.case import CaseError

#: The C library's, where PyYAML was built with it: ten times as fast.
_Dumper: Any = getattr(yaml, "CSafeDumper", yaml.SafeDumper)
_Loader: Any = getattr(yaml, "CBaseLoader", yaml.BaseLoader)

Path = str | Sequence[str]


class _Plain(_Dumper):  # type: ignore[misc]
    """Writes every text plain, so that the reader meets `yes` and `3 mm` as people write them."""

    yaml_implicit_resolvers: Any = {}  # noqa: RUF012

    def ignore_aliases(self, data: Any) -> bool:  # noqa: ARG002
        return True


def load_text(text: str) -> Any:
    """A system file as mappings, lists and texts, nothing interpreted."""
    return yaml.load(text, Loader=_Loader)


def dump_text(tree: Any) -> str:
    """The tree as a system file."""
    return yaml.dump(tree, Dumper=_Plain, allow_unicode=True, sort_keys=False, width=10_000)


def changed(tree: Any, changes: Mapping[str, Any], removals: Iterable[Path]) -> Any:
    """A copy of the tree with the paths set and removed. Raises CaseError for a wrong path."""
    tree = copy.deepcopy(tree)
    for path, value in changes.items():
        holder, key = _holder(tree, path)
        if isinstance(holder, list) and key == len(holder):
            holder.append(value)
        else:
            holder[key] = value
    for gone in removals:
        holder, key = _holder(tree, gone)
        try:
            del holder[key]
        except (KeyError, IndexError):
            raise CaseError(f"nothing to remove at {gone!r}") from None
    return tree


def leaves(tree: Any, above: tuple[str, ...] = ()) -> Iterator[tuple[str, ...]]:
    """The steps to every mapping entry and list row of the tree, outer ones first."""
    inner: Iterable[tuple[Any, Any]] = ()
    if isinstance(tree, dict):
        inner = tree.items()
    elif isinstance(tree, list):
        inner = enumerate(tree)
    for key, value in inner:
        here = (*above, str(key))
        yield here
        yield from leaves(value, here)


def _holder(tree: Any, path: Path) -> tuple[Any, Any]:
    """What holds the path's last step, and that step; mappings on the way are made."""
    steps = _steps(tree, path) if isinstance(path, str) else list(path)
    while True:
        if isinstance(tree, dict):
            step = _longest_key(tree, steps) if isinstance(path, str) else steps[0]
        elif isinstance(tree, list):
            step = steps[0]
        else:
            raise CaseError(f"nothing can be inside {tree!r} in {path!r}")
        steps = steps[step.count(".") + 1 :] if isinstance(path, str) else steps[1:]
        key: Any = step
        if isinstance(tree, list):
            key = _place(step, tree, path, new=not steps)
        if not steps:
            return tree, key
        tree = tree[key] if isinstance(tree, list) else tree.setdefault(key, {})


def _longest_key(tree: Mapping[str, Any], steps: list[str]) -> str:
    """The first step, or as many of the next as make a key that is there."""
    for number in range(len(steps), 1, -1):
        if (key := ".".join(steps[:number])) in tree:
            return key
    return steps[0]


def _steps(tree: Any, path: str) -> list[str]:
    """The path's steps; "port feed/2.length" leads through the circuit's list of parts."""
    first, _, rest = path.partition(".")
    circuit, slash, number = first.rpartition("/")
    if slash and number.isdigit() and circuit in (tree.get("circuits") or {}):
        inside = ["circuits", circuit, "parts", str(int(number) - 1)]
        return [*inside, *rest.split(".")] if rest else inside
    return path.split(".")


def _place(step: str, rows: list[Any], path: Path, *, new: bool) -> int:
    if not step.isdigit():
        raise CaseError(f"{step!r} in {path!r} must be a list place, counted from 0")
    if int(step) >= len(rows) + new:
        raise CaseError(f"no row {step} in {path!r}")
    return int(step)
