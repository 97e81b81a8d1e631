"""Under which licence everything that a user installs with Fusewright may be used.

`python -m tests.supply.licences` writes the page beside this file from what is installed here.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from importlib.metadata import Distribution, PackageNotFoundError, distribution
from pathlib import Path
from typing import NamedTuple

from tests.supply.requirements import requirements

PAGE = Path(__file__).with_name("LICENCES.md")

#: Licences that let us and our users do what we do: use, pass on, no duty to open one's own work.
ALLOWED = (
    "MIT", "MIT-0", "MIT-CMU", "MIT License", "BSD", "BSD License", "BSD-2-Clause", "BSD-3-Clause",
    "0BSD", "Apache-2.0", "Apache License, Version 2.0", "ISC License (ISCL)", "PSF-2.0",
    "Python Software Foundation License", "Public Domain", "Zlib", "CC0-1.0",
    "Mozilla Public License 1.1 (MPL 1.1)", "Apache Software License", "MPL-2.0",
)  # fmt: skip
HEAD = """# What is installed with Fusewright, and its licence

Made by `python -m tests.supply.licences`; a test holds it to what is installed. All extras for
users, and what they need in turn, on Linux. Where several licences stand, one may be chosen (or)
or parts have their own (and).

| distribution | licence | asked for |
| --- | --- | --- |
"""


class Licensed(NamedTuple):
    """A distribution; `all_hold`: every one of its licences holds, else one may be chosen."""

    name: str
    licences: tuple[str, ...]
    all_hold: bool
    direct: bool


def installed() -> tuple[Licensed, ...]:
    """Everything a user needs that is installed here, by name."""
    direct = {_plain(each.name) for each in requirements()}
    found: dict[str, Licensed] = {}
    waiting = list(direct)
    while waiting:
        name = waiting.pop()
        try:
            known = distribution(name)
        except PackageNotFoundError:
            # For another system, by a marker.
            continue
        if name not in found:
            found[name] = Licensed(name, *_licences(known), name in direct)
            waiting += _needs(known)
    return tuple(sorted(found.values()))


def _needs(known: Distribution) -> Iterator[str]:
    for line in known.requires or ():
        if "extra" not in line.partition(";")[2]:
            match = re.match(r"[\w.-]+", line)
            assert match, line
            yield _plain(match[0])


def _plain(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def _licences(known: Distribution) -> tuple[tuple[str, ...], bool]:
    about = known.metadata
    expression = about.get("License-Expression")
    if expression:
        return tuple(re.split(r" AND | OR ", expression)), " OR " not in expression
    marks = [each for each in about.get_all("Classifier", []) if each.startswith("License ::")]
    named = tuple(each.rpartition("::")[2].strip() for each in marks)
    return named or ((about.get("License") or "").strip(),), False


def page() -> str:
    """The whole page as Markdown."""
    lines = (
        f"| {each.name} | {(' and ' if each.all_hold else ' or ').join(each.licences)} "
        f"| {'yes' if each.direct else ''} |\n"
        for each in installed()
    )
    return HEAD + "".join(lines)


if __name__ == "__main__":
    PAGE.write_text(page(), "utf-8")
