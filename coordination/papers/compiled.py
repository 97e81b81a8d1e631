"""Keeps compiled templates where Python keeps compiled modules, and under the same terms.

Compiling the page's templates takes longer than filling them in.
"""

from __future__ import annotations

import os
import sys
from contextlib import suppress

from jinja2.bccache import Bucket, FileSystemBytecodeCache


class Compiled(FileSystemBytecodeCache):
    """A cache beside the modules; never there, and no error, where Python would write none.

    Jinja2 holds each entry to the text it was made of, so a changed template is compiled anew.
    """

    def __init__(self, kind: str = "") -> None:
        """A kind for each way of compiling: what is printed may be looked at first, or not."""
        folder = os.path.join(os.path.dirname(__file__), "__pycache__")
        super().__init__(folder, f"template-{kind}%s.pyc")

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep a compiled template, if the folder may be written to."""
        if sys.dont_write_bytecode:
            return
        with suppress(OSError):
            super().dump_bytecode(bucket)
