"""Holds a pack's hooks against those there are, before any of them is called."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from types import CodeType
from typing import Any, NamedTuple

from catalogue.near_miss import nearest
from coordination.rules import hooks

_PREFIX = "fusewright_"


class Fault(NamedTuple):
    """What is wrong with one hook, and where it stands; `near_miss` what was probably meant."""

    hook: str
    what: str
    where: str
    near_miss: str = ""


def place_of(function: Any) -> str:
    """ "file:line" of a function; empty if it has none."""
    code = getattr(getattr(function, "__func__", function), "__code__", None)
    return f"{code.co_filename}:{code.co_firstlineno}" if isinstance(code, CodeType) else ""


def hook_names(plugin: Any) -> Iterator[str]:
    """Names of whatever looks like a hook, marked or not."""
    for name in dir(plugin):
        function = getattr(plugin, name, None)
        marked = getattr(function, "fusewright_impl", None) is not None
        if marked or (name.startswith(_PREFIX) and callable(function)):
            yield name


def faults(plugin: Any) -> Iterator[Fault]:
    """Every hook whose name or arguments do not exist, or that lacks its mark."""
    for name in hook_names(plugin):
        function = getattr(plugin, name)
        marked = getattr(function, "fusewright_impl", None)
        if marked is None:
            yield Fault(name, f"{name} lacks its mark @hookimpl", place_of(function))
            continue
        called = marked.get("specname") or name
        if called not in _KNOWN:
            if not marked.get("optionalhook"):
                known = ", ".join(_KNOWN)
                what = f"there is no hook {called}; there are {known}"
                yield Fault(name, what, place_of(function), nearest(called, tuple(_KNOWN)))
            continue
        yield from _arguments(called, function)


def _arguments(hook: str, function: Any) -> Iterator[Fault]:
    allowed = _KNOWN[hook]
    unknown = [name for name in _asked(function) if name not in allowed]
    if unknown:
        may = f"it may ask for {', '.join(allowed)}" if allowed else "it may ask for none"
        yield Fault(
            hook,
            f"hook {hook} asks for an argument {unknown[0]!r}; {may}",
            place_of(function),
            nearest(unknown[0], allowed),
        )


def _asked(function: Callable[..., Any]) -> tuple[str, ...]:
    """Arguments without a default, `self` left out."""
    method = hasattr(function, "__self__")
    code = getattr(getattr(function, "__func__", function), "__code__", None)
    if not isinstance(code, CodeType):
        return ()
    names = code.co_varnames[: code.co_argcount]
    given = len(getattr(function, "__defaults__", None) or ())
    return names[1 if method else 0 : len(names) - given]


_KNOWN = {
    name: _asked(function)
    for name, function in vars(hooks).items()
    if hasattr(function, "fusewright_spec")
}
