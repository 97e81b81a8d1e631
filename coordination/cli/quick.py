"""The usual `check FILE` and `report FILE -o PATH` without typer, whose import takes long.

Takes apart only what it knows for certain: the command, one file, options of the tables below.
Anything else (help, abbreviations, mistakes) is typer's, which has the last word on what an option
means.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple


class _Options(NamedTuple):
    """What a command takes: options with a value and its values, if they are few; flags.

    short -- options by another name
    """

    once: Mapping[str, tuple[str, ...]]
    repeated: Mapping[str, tuple[str, ...]]
    flags: tuple[str, ...]
    short: Mapping[str, str] = {}


_PACKS: Mapping[str, tuple[str, ...]] = {
    "--pack": (),
    "--without-pack": (),
    "--rules-from": (),
    "--house-rules": (),
}
_CHECK = _Options(
    once={
        "--format": ("text", "json", "markdown", "junit", "sarif"),
        "--condition": (),
        "--catalogue": (),
        "--width": (),
    },
    repeated={
        **_PACKS,
        "--rule": (),
        "--only": ("fail", "unproven", "note", "pass", "waived"),
    },
    flags=("--all", "--debug"),
)
_REPORT = _Options(
    once={"--output": (), "--language": (), "--catalogue": ()},
    repeated={**_PACKS, "--sections": ()},
    flags=("--debug",),
    short={"-o": "--output"},
)
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


class Report(NamedTuple):
    """What `report` was asked; the fields are its options."""

    file: str
    output: str
    sections: tuple[str, ...] = ()
    language: str = "en"
    packs: tuple[str, ...] = ()
    without: tuple[str, ...] = ()
    rules_from: tuple[str, ...] = ()
    house_rules: tuple[str, ...] = ()
    catalogue: str | None = None
    debug: bool = False


def usual(arguments: Sequence[str]) -> Check | Report | None:
    """What is asked, if it is a check or a report in its usual form; None: ask typer."""
    if arguments[:1] == ["check"]:
        given = _given(arguments[1:], _CHECK)
        return _check(given) if given else None
    if arguments[:1] == ["report"]:
        given = _given(arguments[1:], _REPORT)
        return _report(given) if given and "--output" in given else None
    return None


#: Option to its values, "" to the file.
_Given = dict[str, list[str]]


def _given(arguments: Sequence[str], options: _Options) -> _Given | None:
    """What was given, if all of it is known for certain and there is one file."""
    words = iter(arguments)
    given: _Given = {"": []}
    for word in words:
        name = options.short.get(word, word)
        if not name.startswith("-"):
            given[""].append(name)
        elif name in options.flags:
            given[name] = []
        elif (value := next(words, None)) is None or not _fits(name, value, options):
            return None
        else:
            given.setdefault(name, []).append(value)
    once = all(len(values) == 1 for name, values in given.items() if name in options.once)
    return given if len(given[""]) == 1 and once else None


def _fits(option: str, value: str, options: _Options) -> bool:
    """Whether it is a known option with a value that typer would take as it is."""
    if option == "--width":
        return value.isdecimal() and value.isascii() and int(value) in WIDTHS
    few = options.once.get(option, options.repeated.get(option))
    return few is not None and not value.startswith("-") and (not few or value in few)


def _one(given: _Given, option: str) -> str | None:
    return given[option][0] if option in given else None


def _many(given: _Given, option: str) -> tuple[str, ...]:
    return tuple(given.get(option, ()))


def _check(given: _Given) -> Check:
    width = _one(given, "--width")
    return Check(
        file=given[""][0],
        format=_one(given, "--format") or "text",
        condition=_one(given, "--condition"),
        packs=_many(given, "--pack"),
        rules=_many(given, "--rule"),
        only=_many(given, "--only"),
        full="--all" in given,
        catalogue=_one(given, "--catalogue"),
        debug="--debug" in given,
        width=int(width) if width else None,
        without=_many(given, "--without-pack"),
        rules_from=_many(given, "--rules-from"),
        house_rules=_many(given, "--house-rules"),
    )


def _report(given: _Given) -> Report:
    return Report(
        file=given[""][0],
        output=given["--output"][0],
        sections=_many(given, "--sections"),
        language=given.get("--language", ["en"])[0],
        packs=_many(given, "--pack"),
        without=_many(given, "--without-pack"),
        rules_from=_many(given, "--rules-from"),
        house_rules=_many(given, "--house-rules"),
        catalogue=_one(given, "--catalogue"),
        debug="--debug" in given,
    )
