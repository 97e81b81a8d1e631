"""Which thing of the old drawing is which of the new one, where their names differ.

Same names are the same thing. Beyond that it is a guess: an element that only moved along in its
circuit, and a thing that went while one just like it came. Two that could be meant are none.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterable, Mapping
from difflib import SequenceMatcher

from coordination.comparison.drawing import Thing

Things = Mapping[str, Thing]


def renamed(old: Things, new: Things) -> dict[str, str]:
    """Old name to new one, of all that seems to have been renamed or moved along."""
    found = _alike(old, new, _gone(old, new), _come(old, new), {})
    circuits = {name: found.get(name, name) for name, thing in old.items()
                if thing.kind == "circuit"}  # fmt: skip
    for was, now in circuits.items():
        found |= _along(old, new, was, now)
    gone = [name for name in _gone(old, new) if name not in found]
    come = [name for name in _come(old, new) if name not in found.values()]
    found |= _alike(old, new, gone, come, found)
    return {was: now for was, now in found.items() if was != now}


def set_aside(old: Things, found: Mapping[str, str]) -> dict[str, str]:
    """Other names for what is gone and whose name something else has taken."""
    taken = set(found.values())
    return {
        name: f"{name} (removed)" for name in old if name in taken and name not in found
    }


def _gone(old: Things, new: Things) -> list[str]:
    return [name for name, thing in old.items() if name not in new and not thing.unnamed]


def _come(old: Things, new: Things) -> list[str]:
    return [name for name, thing in new.items() if name not in old and not thing.unnamed]


def _alike(
    old: Things, new: Things, gone: Iterable[str], come: Iterable[str], known: Mapping[str, str]
) -> dict[str, str]:
    """Those that state the same and of which there is one on each side."""
    here, there = _by_mark(old, gone, known), _by_mark(new, come, {})
    return {
        names[0]: there[mark][0]
        for mark, names in here.items()
        if len(names) == 1 and len(there.get(mark, ())) == 1
    }


def _by_mark(
    things: Things, names: Iterable[str], known: Mapping[str, str]
) -> dict[Hashable, list[str]]:
    found: dict[Hashable, list[str]] = {}
    for name in names:
        thing = things[name]
        # Places, conditions and waivers are told by their names only.
        if thing.kind not in ("place", "condition", "waiver"):
            found.setdefault(_mark(thing, known), []).append(name)
    return found


def _mark(thing: Thing, known: Mapping[str, str]) -> Hashable:
    """All that a thing states, with the names it uses as they are now."""
    stated = (
        (key, known.get(field.text, field.text) if key in ("from", "to") else repr(field.value))
        for key, field in thing.fields.items()
    )
    return thing.kind, known.get(thing.circuit, thing.circuit), tuple(sorted(stated))


def _along(old: Things, new: Things, was: str, now: str) -> dict[str, str]:
    """Elements of one circuit, in order: what has no name of its own may have moved along."""
    here = [each for each in old.values() if each.circuit == was]
    there = [each for each in new.values() if each.circuit == now]
    matcher = SequenceMatcher(None, [_row(each) for each in here], [_row(each) for each in there],
                              autojunk=False)  # fmt: skip
    found: dict[str, str] = {}
    for tag, start, end, at, to in matcher.get_opcodes():
        same = tag == "equal" or (tag == "replace" and end - start == to - at)
        for one, other in zip(here[start:end], there[at:to], strict=False) if same else ():
            free = one.name not in new and other.name not in old
            if one.kind == other.kind and (one.unnamed or other.unnamed or free):
                found[one.name] = other.name
    return found


def _row(thing: Thing) -> Hashable:
    part = thing.fields.get("part")
    return thing.kind, part.text if part else "", "" if thing.unnamed else thing.name
