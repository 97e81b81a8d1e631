"""Runs `fusewright` and tells what it touched: `python watched.py REPORT ARGUMENTS...`.

Python itself tells (audit hooks), so nothing that goes through it can be hidden; what a C library
opens on its own is not seen.
"""

from __future__ import annotations

import json
import os
import sys
from typing import Any

#: Events with the path that is written to as the first argument, and where there is another.
_WRITES = {"os.remove": (0,), "os.rename": (0, 1), "os.mkdir": (0,), "os.rmdir": (0,),
           "os.truncate": (0,), "os.link": (0, 1), "os.symlink": (1,), "sqlite3.connect": (0,),
           "os.chmod": (0,), "shutil.rmtree": (0,)}  # fmt: skip
_NETWORK = ("socket.", "urllib.", "ftplib.", "http.client.", "smtplib.")
_PROGRAMS = ("subprocess.Popen", "os.system", "os.exec", "os.posix_spawn", "os.fork")

touched: dict[str, list[str]] = {"network": [], "written": [], "programs": []}


def watch(event: str, arguments: tuple[Any, ...]) -> None:
    if event.startswith(_NETWORK):
        touched["network"].append(f"{event} {arguments[1:]!r}")
    elif event.startswith(_PROGRAMS):
        touched["programs"].append(f"{event} {arguments[0]!r}")
    elif event == "open" and _changes(*arguments):
        touched["written"].append(os.path.abspath(os.fsdecode(arguments[0])))
    elif event in _WRITES:
        touched["written"] += [_path(arguments[number]) for number in _WRITES[event]]


def _changes(path: Any, mode: Any, flags: Any) -> bool:
    if isinstance(path, int):
        return False
    writes = isinstance(flags, int) and flags & (os.O_WRONLY | os.O_RDWR | os.O_CREAT)
    return bool(writes) or (isinstance(mode, str) and bool(set(mode) & set("wax+")))


def _path(given: Any) -> str:
    return os.path.abspath(os.fsdecode(given)) if isinstance(given, (str, bytes)) else str(given)


def main() -> None:
    report = sys.argv.pop(1)
    leave = os._exit

    def tell(status: int) -> None:
        seen = json.dumps(touched)
        with open(report, "w", encoding="utf-8") as stream:
            stream.write(seen)
        leave(status)

    os._exit = tell  # type: ignore[assignment]
    sys.addaudithook(watch)
    from coordination.cli import main as fusewright

    try:
        fusewright()
    except SystemExit as end:
        tell(end.code if isinstance(end.code, int) else 1)
    tell(0)


main()
