"""Standard output as it is: a terminal or a pipe, of any encoding, perhaps closed by its reader."""

from __future__ import annotations

import codecs
import os
import sys

#: What stands for the trade's signs where an encoding lacks them.
_PLAIN = {
    **{"Ω": "ohm", "\u2126": "ohm", "µ": "u", "\u03bc": "u", "°": "deg", "√": "sqrt", "Σ": "sum"},
    **{"²": "^2", "³": "^3", "·": "*", "×": "x", "−": "-", "–": "-", "≤": "<=", "≥": ">="},
    **{"τ": "tau", "η": "eta", "ρ": "rho", "θ": "theta", "Δ": "delta", "α": "alpha", "…": "..."},
}


def _replace(error: UnicodeError) -> tuple[str, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    signs = error.object[error.start : error.end]
    plain = (
        _PLAIN.get(sign) or sign.encode("ascii", "backslashreplace").decode() for sign in signs
    )
    return "".join(plain), error.end


def emit(text: str) -> None:
    """Print the text. A reader that stopped reading is no error; a full disk is.

    Raises OSError if the text cannot be written.
    """
    if sys.stdout is None:
        return
    codecs.register_error("fusewright", _replace)
    encoding = sys.stdout.encoding or "ascii"
    text = text.encode(encoding, "fusewright").decode(encoding)
    try:
        sys.stdout.write(text)
        sys.stdout.flush()
    except BrokenPipeError:
        _forget()
    except OSError as error:
        _forget()
        raise OSError(error.errno, error.strerror, "standard output") from None


def _forget() -> None:
    """Lets the interpreter's own last flush go nowhere, or it would complain."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())


def is_terminal() -> bool:
    """Whether standard output is read by a person at a terminal."""
    try:
        return sys.stdout is not None and sys.stdout.isatty()
    except ValueError:
        return False


def speaks_unicode() -> bool:
    """Whether standard output can carry every sign."""
    return sys.stdout is not None and (sys.stdout.encoding or "").lower().replace("-", "") == "utf8"


def columns(asked: int | None) -> int:
    """The width asked for, else the terminal's, else 80."""
    if asked is not None:
        return asked
    if not is_terminal():
        return 80
    import shutil

    return shutil.get_terminal_size((80, 24)).columns
