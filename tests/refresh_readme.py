"""Writes the README's sessions anew from what the commands print now.

    python tests/refresh_readme.py

A session keeps its shape: runs of lines between "...". Of each run the first two lines and the last
are looked for in the output; what stands between them is taken from there.
"""

from __future__ import annotations

import re
import shlex
import subprocess
import sys
from pathlib import Path

CHECKOUT = Path(__file__).parents[1]
SESSION = re.compile(r"(```console\n\$ fusewright ([^\n]*)\n)(.*?)```", re.DOTALL)
RUN = (sys.executable, "-c", "from coordination.cli import main; main()")


def printed_by(command: str) -> list[str]:
    """The lines that a command prints in the checkout."""
    words = [*RUN, *shlex.split(command)]
    done = subprocess.run(words, capture_output=True, text=True, cwd=CHECKOUT, check=False)
    return done.stdout.splitlines()


def renewed(chunk: str, printed: list[str]) -> str:
    """The run of lines as it is printed now. Raises StopIteration if its ends are gone."""
    lines = chunk.splitlines()
    starts = lines[:2]
    start = next(at for at in range(len(printed)) if printed[at : at + len(starts)] == starts)
    end = next(at for at in range(start, len(printed)) if printed[at] == lines[-1])
    return "".join(f"{line}\n" for line in printed[start : end + 1])


def session(match: re.Match[str]) -> str:
    """One session with each of its runs renewed."""
    printed = printed_by(match[2])
    chunks = [renewed(chunk, printed) if chunk else "" for chunk in match[3].split("...\n")]
    return match[1] + "...\n".join(chunks) + "```"


def main() -> None:
    """Rewrite README.md; what cannot be found there any more has to be put right by hand."""
    readme = CHECKOUT / "README.md"
    text = readme.read_text(encoding="utf-8")
    readme.write_text(SESSION.sub(session, text), encoding="utf-8")


if __name__ == "__main__":
    main()
