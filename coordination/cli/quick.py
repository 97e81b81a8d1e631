"""The usual `check FILE` without typer, whose import takes longer than most checks.

Takes apart only what it knows for certain: `check`, one file, options of the table below. Anything
else (help, abbreviations, mistakes) is typer's, which has the last word on what an option means.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

#: Options with a value: how often, and the values if they are few.
_ONCE = {
    "--format": ("text", "json", "markdown", "junit", "sarif"),
    "--condition": (),
    "--catalogue": (),
    "--width": (),
}
_REPEATED = {
    "--pack": (),
    "--without-pack": (),
    "--rules-from": (),
    "--house-rules": (),
    "--rule": (),
    "--only": ("fail", "unproven", "note", "pass", "waived"),
}
_FLAGS = ("--all", "--debug")
WIDTHS = range(40, 401)


class Check(NamedTuple):
    """What `check` was asked; the fields are its options."""

    file: str
    format: str = "text"
    condition: str | None = None
    packs: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    only: tuple[str, ...] = ()
    full: bool = False
    catalogue: str | None = None
    debug: bool = False
    width: int | None = None
    without: tuple[str, ...] = ()
    rules_from: tuple[str, ...] = ()
    house_rules: tuple[str, ...] = ()
    sealed: bool = False


def usual_check(arguments: Sequence[str]) -> Check | None:
    """What is asked, if it is a check in its usual form; None: ask typer."""
    if arguments[:1] != ["check"]:
        return None
    words = iter(arguments[1:])
    files: list[str] = []
    given: dict[str, list[str]] = {}
    for word in words:
        if not word.startswith("-"):
            files.append(word)
        elif word in _FLAGS:
            given[word] = []
        elif (value := next(words, None)) is None or not _fits(word, value):
            return None
        else:
            given.setdefault(word, []).append(value)
    once = all(len(values) == 1 for word, values in given.items() if word in _ONCE)
    return _asked(files[0], given) if len(files) == 1 and once else None


def _fits(option: str, value: str) -> bool:
    """Whether it is a known option with a value that typer would take as it is."""
    if option == "--width":
        return value.isdecimal() and value.isascii() and int(value) in WIDTHS
    few = _ONCE.get(option, _REPEATED.get(option))
    return few is not None and not value.startswith("-") and (not few or value in few)


def _asked(file: str, given: dict[str, list[str]]) -> Check:
    def one(option: str) -> str | None:
        return given[option][0] if option in given else None

    width = one("--width")
    return Check(
        file=file,
        format=one("--format") or "text",
        condition=one("--condition"),
        packs=tuple(given.get("--pack", ())),
        rules=tuple(given.get("--rule", ())),
        only=tuple(given.get("--only", ())),
        full="--all" in given,
        catalogue=one("--catalogue"),
        debug="--debug" in given,
        width=int(width) if width else None,
        without=tuple(given.get("--without-pack", ())),
        rules_from=tuple(given.get("--rules-from", ())),
        house_rules=tuple(given.get("--house-rules", ())),
    )
